import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { type } from './paper.ts';
import type { TakenAway } from './take-away.ts';

/**
 * The files that can be taken away.
 * @event evenfield-save - {TakenAway} which is wanted
 */
@customElement('evenfield-save')
export class EvenfieldSave extends LitElement {
  static override styles = [
    type,
    css`
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem;
        margin-bottom: 0.5rem;
      }
    `,
  ];

  override render() {
    return html`<h2>Take away</h2>
      <div class="buttons">
        <button @click=${() => this.save('profile')}>Save the correction profile</button>
        <button @click=${() => this.save('gains')}>Save its gains as a picture</button>
        <button @click=${() => this.save('ramp')}>Save its ramps in figures</button>
        <button @click=${() => this.save('reading')}>Save the reading</button>
      </div>
      <p class="small quiet">
        The profile holds the gains that make this background even and neutral; the reading holds every figure of this
        page. Both are JSON. The picture of the gains (TIFF, 16 bit) is for editors that can multiply in linear light: its
        description says by which scale. The ramps are the closest straight ones, to be typed in by hand.
      </p>`;
  }

  private save(what: TakenAway): void {
    this.dispatchEvent(new CustomEvent('evenfield-save', { detail: what, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-save': EvenfieldSave;
  }
}
