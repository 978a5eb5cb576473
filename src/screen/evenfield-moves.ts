import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Aim } from '../engine/aim.ts';
import type { Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { MoveAnswers } from '../takes/move-answers.ts';
import './evenfield-move-answer.ts';
import './evenfield-shoot-again.ts';
import { type } from './paper.ts';
import { MOVES_FOR_AIM } from './words/aim-words.ts';
import {
  cautionsInOrder,
  type MovesFoundBy,
  predictionWords,
  wordsBesideMoves,
} from './words/beside-moves.ts';
import type { LengthUnit } from './words/length-words.ts';
import { moveWords } from './words/move-words.ts';

const NOT_NEWEST = 'This take is not the newest: moves are answered at the newest.';
const AS_TOLD =
  'These are the moves as they were told before the next take was shot; moves are answered at the newest.';

/**
 * What to do before the next take, in the order of doing, in type that is read from two metres; what became of
 * each move; and the way to the next take.
 */
@customElement('evenfield-moves')
export class EvenfieldMoves extends LitElement {
  static override styles = [
    type,
    css`
      ol {
        margin-top: 0.75rem; /* below a sentence in type of nearly its size */
        padding-left: 1.4em; /* room for the figures, so that they stand under the heading's rule */
        font-size: var(--verdict-size);
      }
      li {
        margin-bottom: 1.25rem;
        padding-left: 0.25rem;
        line-height: 1.2;
        overflow-wrap: break-word; /* a length of many digits */
      }
      .beside {
        font-size: var(--text-size);
        line-height: 1.5;
      }
    `,
  ];

  @property({ attribute: false }) reading!: Reading;
  /** As it stands at this reading. */
  @property({ attribute: false }) setup!: Setup;
  @property({ attribute: false }) foundBy!: MovesFoundBy;
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() unit: LengthUnit = 'cm';
  /** What the background is to become: moves are known that make it even. */
  @property() aim: Aim['kind'] = 'even';
  /** The answers so far; `null` where a later take has answered these moves. */
  @property({ attribute: false }) answers: MoveAnswers | null = null;
  /** Whether the moves are those told when the next take was shot, whatever this one is judged by since. */
  @property({ type: Boolean }) isAsTold = false;

  override render() {
    const { moves } = this.reading;
    const answers = this.answers;
    return html`<h2>What to move</h2>
      ${this.words().map((words) => html`<p class="large">${words}</p>`)}
      ${answers === null ? html`<p class="quiet">${this.isAsTold ? AS_TOLD : NOT_NEWEST}</p>` : nothing}
      ${moves.length === 0 ? nothing : this.list()}
      ${
        answers === null
          ? nothing
          : html`<evenfield-shoot-again .hasMoves=${moves.length > 0} .hasAnswers=${answers.some((each) => each !== null)} .isByItself=${this.aim === 'ramp'}></evenfield-shoot-again>`
      }`;
  }

  private words(): readonly string[] {
    const forAim = MOVES_FOR_AIM[this.aim];
    if (this.aim === 'ramp') return [forAim!];
    const words = wordsBesideMoves(this.reading, this.setup, this.foundBy);
    return forAim === null || this.reading.moves.length === 0 ? words : [...words, forAim];
  }

  private list() {
    const { moves } = this.reading;
    const cautions = cautionsInOrder(moves);
    const prediction = predictionWords(this.reading, this.tolerance);
    return html`<ol>
        ${moves.map((move, i) => {
          const { text, brings } = moveWords(move, this.setup, this.unit, moves);
          const caution = cautions[i]!;
          return html`<li>
            ${text}
            <div class="beside">
              ${brings === null ? nothing : html`<span class="quiet">This ${brings}. </span>`}
              ${caution === null ? nothing : html`<span>${caution}</span>`}
              ${this.answers === null ? nothing : this.question(i, this.answers)}
            </div>
          </li>`;
        })}
      </ol>
      ${prediction === null ? nothing : html`<p>${prediction}</p>`}`;
  }

  private question(index: number, answers: MoveAnswers) {
    const move = this.reading.moves[index]!;
    const presentMm = move.kind === 'lamp-distance' ? (this.setup.lampDistanceMm[move.lamp] ?? null) : null;
    return html`<evenfield-move-answer
      .move=${move}
      .index=${index}
      .answer=${answers[index] ?? null}
      .presentMm=${presentMm}
      .unit=${this.unit}
    ></evenfield-move-answer>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-moves': EvenfieldMoves;
  }
}
