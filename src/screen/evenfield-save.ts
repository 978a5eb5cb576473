import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { type } from './paper.ts';

/**
 * The two files that can be taken away.
 * @event evenfield-save - {'reading' | 'profile'} which is wanted
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
        <button @click=${() => this.save('reading')}>Save the reading</button>
      </div>
      <p class="small quiet">
        The profile holds the gains that make this background even and neutral; the reading holds every figure of this
        page. Both are JSON.
      </p>`;
  }

  private save(what: 'reading' | 'profile'): void {
    this.dispatchEvent(new CustomEvent('evenfield-save', { detail: what, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-save': EvenfieldSave;
  }
}
