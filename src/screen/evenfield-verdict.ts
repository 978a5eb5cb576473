import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { type } from './paper.ts';
import { verdictSentence } from './words/verdict-sentence.ts';

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
        max-width: 60ch;
      }
    `,
  ];

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) tolerance!: Tolerance;

  override render() {
    const words = verdictSentence(this.reading, this.tolerance);
    return html`<p class="verdict">${words.even} ${
      words.plusMinus === null ? nothing : html`<span class="plus-minus quiet">${words.plusMinus}</span>`
    }</p>
      ${words.caveat === null ? nothing : html`<p class="large caveat">${words.caveat}</p>`}
      <p class="large">${words.where}</p>
      <p class="large">${words.neutral}</p>
      ${words.exposed === null ? nothing : html`<p class="large">${words.exposed}</p>`}
      <p class="small quiet">${this.reading.frame.lightSays}</p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-verdict': EvenfieldVerdict;
  }
}
