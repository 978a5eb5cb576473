import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DeletedTake } from '../takes/deleted-take.ts';
import { type } from './paper.ts';
import { deletedWords } from './words/take-words.ts';

/**
 * The take that was deleted last, with the way to take it back.
 * @event evenfield-take-back - when it is to stand at its place again
 */
@customElement('evenfield-deleted-take')
export class EvenfieldDeletedTake extends LitElement {
  static override styles = [
    type,
    css`
      p {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        max-width: 46rem;
      }
    `,
  ];

  @property({ attribute: false }) deleted: DeletedTake | null = null;

  override render() {
    if (this.deleted === null) return nothing;
    return html`<p>
      <span role="status">${deletedWords(this.deleted)}</span>
      <button @click=${() => this.dispatchEvent(new CustomEvent('evenfield-take-back', { bubbles: true, composed: true }))}>Take it back</button>
    </p>`;
  }

  /** The button that was pressed went with its take. */
  override updated(changed: PropertyValues<this>): void {
    if (changed.has('deleted') && changed.get('deleted') !== undefined && this.deleted !== null)
      this.renderRoot.querySelector('button')?.focus();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-deleted-take': EvenfieldDeletedTake;
  }
}
