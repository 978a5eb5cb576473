import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { type } from './paper.ts';

/**
 * The reading as a file.
 * @event evenfield-save - when it is wanted
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
        <button @click=${this.save}>Save the reading</button>
        <button @click=${() => window.print()}>Print the record…</button>
      </div>
      <p class="small quiet">The reading holds every figure of this page, as JSON. The record is one page, on paper or as PDF: maps, figures, the set and the moves, to build it again from.</p>`;
  }

  private save(): void {
    this.dispatchEvent(new CustomEvent('evenfield-save', { bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-save': EvenfieldSave;
  }
}
