import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { benchesOnPage } from './benches-on-page.ts';
import './evenfield-frame-picker.ts';
import { type } from './paper.ts';

/** What the page says before anything was read: what to shoot, and where to put it. */
@customElement('evenfield-start')
export class EvenfieldStart extends LitElement {
  static override styles = [
    type,
    css`
      .shoot {
        max-width: 54ch;
        margin-bottom: 1.5rem;
        font-size: var(--verdict-size);
        line-height: 1.25;
      }
      .drop {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.75rem 1.25rem;
        padding: 1.5rem;
        border: 1px dashed var(--rule);
      }
      .drop p {
        margin: 0;
        flex: 1 1 16rem;
      }
    `,
  ];

  override render() {
    return html`<p class="shoot">
        Light the background, take the subject out, and shoot it empty: manual exposure a stop below clipping, manual
        white balance, the camera’s own shading and shadow corrections off, focus, aperture and zoom as for the subject,
        raw if you can.
      </p>
      <div class="drop">
        <evenfield-frame-picker .takesJobs=${true}></evenfield-frame-picker>
        <p>
          Or drop it anywhere on ${benchesOnPage.dropPlace}. Several frames of one unchanged set-up are averaged. JPEG, PNG, TIFF,
          camera raw, WebP and AVIF are read, HEIC where the browser shows it; a saved job is opened to
          go on with. Nothing leaves this machine.
        </p>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-start': EvenfieldStart;
  }
}
