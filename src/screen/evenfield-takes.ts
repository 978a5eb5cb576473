import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Take } from '../takes/take.ts';
import { type } from './paper.ts';
import { takeWords } from './words/take-words.ts';

/**
 * The takes in order, each with its spread.
 * @event evenfield-show-take - {string} the id of the take to show
 */
@customElement('evenfield-takes')
export class EvenfieldTakes extends LitElement {
  static override styles = [
    type,
    css`
      ol {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem;
        padding: 0;
        list-style: none;
      }
      button {
        border-color: var(--rule);
      }
      button[aria-current='true'] {
        border-color: var(--ink);
        border-width: 2px;
      }
      .name {
        display: block;
        overflow-wrap: anywhere;
      }
    `,
  ];

  @property({ attribute: false }) takes: readonly Take[] = [];
  @property() shown = '';

  override render() {
    return html`<h2>Takes</h2>
      <ol>
        ${this.takes.map((take, i) => {
          const { title, name } = takeWords(take, i + 1);
          return html`<li>
            <button aria-current=${take.id === this.shown ? 'true' : 'false'} @click=${() => this.show(take)}>
              ${title}<span class="name small">${name}</span>
            </button>
          </li>`;
        })}
      </ol>`;
  }

  private show({ id }: Take): void {
    this.dispatchEvent(new CustomEvent('evenfield-show-take', { detail: id, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-takes': EvenfieldTakes;
  }
}
