import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import { type } from './paper.ts';
import type { LengthUnit } from './words/length-words.ts';
import { moveWords, nothingToMove } from './words/move-words.ts';

/** What to do before the next take, in the order of doing, in type that is read from two metres. */
@customElement('evenfield-moves')
export class EvenfieldMoves extends LitElement {
  static override styles = [
    type,
    css`
      ol {
        padding-left: 1.75rem;
      }
      li {
        margin-bottom: 1rem;
        padding-left: 0.25rem;
      }
      .move {
        display: block;
        font-size: calc(var(--large-size) * 1.15);
        line-height: 1.3;
      }
    `,
  ];

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) setup!: Setup;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const { moves, verdict } = this.reading;
    if (moves.length === 0)
      return html`<h2>What to move</h2>
        <p class="large">${nothingToMove(verdict)}</p>`;
    return html`<h2>What to move</h2>
      <ol>
        ${moves.map((move) => {
          const { text, brings, caution } = moveWords(move, this.setup, this.unit);
          return html`<li>
            <span class="move">${text}</span>
            ${brings === null ? nothing : html`<span class="quiet">This ${brings}. </span>`}
            ${caution === null ? nothing : html`<span>${caution}</span>`}
          </li>`;
        })}
      </ol>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-moves': EvenfieldMoves;
  }
}
