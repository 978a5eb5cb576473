import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { AimedReading } from '../engine/aims/aimed-reading.ts';
import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { type } from './paper.ts';
import { type AimSentences, aimSentences, evenTooWords } from './words/aim-words.ts';
import { type VerdictSentences, verdictSentence } from './words/verdict-sentence.ts';

/** The verdict, large, with its ± beside it. */
@customElement('evenfield-verdict')
export class EvenfieldVerdict extends LitElement {
  static override styles = [
    type,
    css`
      .verdict {
        margin: 0 0 0.25rem;
        font-size: var(--verdict-size);
        line-height: 1.2;
        text-wrap: balance;
      }
      .plus-minus {
        font-size: var(--text-size);
        white-space: nowrap;
      }
      .large {
        margin: 0 0 0.25rem;
        max-width: var(--measure, 60ch);
      }
    `,
  ];

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) tolerance!: Tolerance;
  /** Judged for another aim than an even background: it then comes first. */
  @property({ attribute: false }) aimed: AimedReading | null = null;

  override render() {
    const { reading, tolerance, aimed } = this;
    const words = verdictSentence(reading, tolerance);
    const ofAim = aimed === null ? null : aimSentences(aimed, tolerance, reading.region);
    const { verdict, plusMinus } = ofAim ?? { verdict: words.even, plusMinus: words.plusMinus };
    return html`<p class="verdict">${verdict} ${beside(plusMinus)}</p>
      ${ofAim === null ? nothing : this.ofAim(ofAim, words)}
      ${words.caveat === null ? nothing : html`<p class="large caveat">${words.caveat}</p>`}
      <p class="large">${words.where}</p>
      <p class="large">${words.neutral}</p>
      ${words.exposed === null ? nothing : html`<p class="large">${words.exposed}</p>`}
      <p class="small quiet">${this.reading.frame.lightSays}</p>`;
  }

  /** What stands between an aim's verdict and the rest: its figures, and how even the light is all the same. */
  private ofAim({ more, practice }: AimSentences, { even, plusMinus }: VerdictSentences) {
    return html`${more.map((says) => html`<p class="large">${says}</p>`)}
      ${practice === null ? nothing : html`<p class="small quiet">${practice}</p>`}
      <p class="large">${evenTooWords(even)} ${beside(plusMinus)}</p>`;
  }
}

const beside = (plusMinus: string | null) =>
  plusMinus === null ? nothing : html`<span class="plus-minus quiet">${plusMinus}</span>`;

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-verdict': EvenfieldVerdict;
  }
}
