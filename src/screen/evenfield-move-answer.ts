import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Move } from '../engine/moves/move.ts';
import { type MoveAnswer, measurable } from '../takes/move-answers.ts';
import { type } from './paper.ts';
import { type LengthUnit, lengthWords } from './words/length-words.ts';
import { parseLength, slipWords } from './words/parse-length.ts';

export interface GivenAnswer {
  /** The move's place in its list, from 0. */
  readonly index: number;
  readonly answer: MoveAnswer;
}

/**
 * What became of one move, asked in a line: done, not done, or by how much.
 * @event evenfield-answer - {GivenAnswer} when it was answered
 * @event evenfield-slip - {string} what was typed and not understood, in a sentence
 */
@customElement('evenfield-move-answer')
export class EvenfieldMoveAnswer extends LitElement {
  static override styles = [
    type,
    css`
      fieldset {
        display: flex;
        flex-wrap: wrap;
        gap: 0 1.25rem;
        min-width: 0;
        margin: 0;
        padding: 0;
        border: 0;
      }
      label,
      .measured {
        display: inline-flex;
        align-items: center;
        gap: 0.375rem;
        min-height: 2.75rem;
      }
      [type='radio'] {
        flex: none;
        width: 1.25rem;
        height: 1.25rem;
        margin: 0;
        accent-color: var(--ink);
      }
      .measured {
        flex-wrap: wrap;
        min-width: 0;
        max-width: 100%;
      }
      .together {
        white-space: nowrap;
      }
      .length {
        field-sizing: content;
        min-width: 7.5ch;
        max-width: 100%;
        height: 2rem;
        padding: 0 0.25rem;
        border: 0;
        border-bottom: 2px solid var(--rule);
        border-radius: 0;
        background: var(--ground);
        color: inherit;
        font: inherit;
        font-weight: 600;
      }
      .length::placeholder {
        color: var(--quiet-ink);
        font-weight: 400;
        opacity: 1;
      }
    `,
  ];

  @property({ attribute: false }) move!: Move;
  /** The move's place in its list, from 0. */
  @property({ type: Number }) index = 0;
  @property({ attribute: false }) answer: MoveAnswer | null = null;
  /** The light's distance before the move, as far as it is known. */
  @property({ attribute: false }) presentMm: number | null = null;
  @property() unit: LengthUnit = 'cm';

  override render() {
    return html`<fieldset>
      <legend class="unseen">Was move ${this.index + 1} made?</legend>
      ${this.choice('done', 'Done', { kind: 'done' })} ${this.choice('not-done', 'Not done', { kind: 'not-done' })}
      ${this.measured()}
    </fieldset>`;
  }

  private measured() {
    const kind = measurable(this.move);
    if (kind === null) return nothing;
    if (kind === 'moved') {
      const mm = this.answer?.kind === 'moved' ? this.answer.mm : null;
      return html`<span class="measured">
        ${this.choice(kind, 'I moved it', { kind, mm })}
        ${this.length('How far it was moved', mm, (typed) => ({ kind, mm: typed }))}
      </span>`;
    }
    const { fromMm, toMm } =
      this.answer?.kind === 'stands' ? this.answer : { fromMm: this.presentMm, toMm: null };
    return html`<span class="measured">
      ${this.choice(kind, 'I moved it from', { kind, fromMm, toMm })}
      ${this.length('Distance before', fromMm, (typed) => ({ kind, fromMm: typed, toMm }))}
      <span class="together">to ${this.length('Distance now', toMm, (typed) => ({ kind, fromMm, toMm: typed }))}</span>
    </span>`;
  }

  private choice(kind: MoveAnswer['kind'], label: string, answer: MoveAnswer) {
    return html`<label
      ><input
        type="radio"
        name="answer"
        .checked=${this.answer?.kind === kind}
        @change=${() => this.give(answer)}
      />${label}</label
    >`;
  }

  private length(name: string, mm: number | null, answerWith: (typed: number | null) => MoveAnswer) {
    const words = mm === null ? '' : lengthWords(mm, this.unit);
    const read = (event: Event) => {
      const input = event.target as HTMLInputElement;
      const typed = parseLength(input.value, this.unit);
      if (typed === null && input.value.trim() !== '') {
        this.tell(
          'evenfield-slip',
          slipWords(input.value.trim(), words === '' ? 'an unknown length' : words),
        );
        input.value = words; // a slip changes nothing
        return;
      }
      input.value = typed === null ? '' : lengthWords(typed, this.unit);
      this.give(answerWith(typed));
    };
    return html`<input
      class="length"
      aria-label=${`${name}, move ${this.index + 1}`}
      inputmode="decimal"
      autocomplete="off"
      placeholder=${`… ${this.unit}`}
      .value=${words}
      @change=${read}
    />`;
  }

  private give(answer: MoveAnswer): void {
    const given: GivenAnswer = { index: this.index, answer };
    this.tell('evenfield-answer', given);
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-move-answer': EvenfieldMoveAnswer;
  }
}
