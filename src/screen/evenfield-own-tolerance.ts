import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Tolerance } from '../engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../engine/tolerances.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import {
  colourFigure,
  colourLimitWords,
  colourSlipWords,
  limitFigure,
  limitSlipWords,
  MEASURE_WORDS,
  type Measure,
  ownTolerance,
  parseColourLimit,
  parseLimit,
} from './words/tolerance-words.ts';

/** One figure of the sentence: what stands there, what a text changes (`null`: nothing), and what is said of a slip. */
interface TypedFigure {
  readonly shown: string;
  readonly change: (text: string) => Partial<Tolerance> | null;
  readonly slip: (text: string) => string;
}

/**
 * A limit of one's own, as the end of the set-up sentence.
 * @event evenfield-tolerance - {Tolerance} when a figure or the measure was changed
 * @event evenfield-slip - {string} what was typed and not understood, in a sentence
 */
@customElement('evenfield-own-tolerance')
export class EvenfieldOwnTolerance extends LitElement {
  static override styles = [
    type,
    sentenceStyles,
    css`
      :host {
        display: inline;
      }
    `,
  ];

  @property({ attribute: false }) tolerance: Tolerance = DEFAULT_TOLERANCE;

  override render() {
    const { measure, tintDeltaUv, castDeltaUv } = this.tolerance;
    const evenness = {
      shown: limitFigure(this.tolerance),
      change: (text: string) => asPart('limit', parseLimit(text, measure)),
      slip: (text: string) => limitSlipWords(text, this.tolerance),
    };
    return html`${this.figure('Limit of evenness', evenness)}
    <select aria-label="Measure of evenness" @change=${(event: Event) => this.change({ measure: (event.target as HTMLSelectElement).value as Measure })}>
      ${Object.entries(MEASURE_WORDS).map(([key, words]) => html`<option value=${key} ?selected=${key === measure}>${words}</option>`)}</select
    >; tint within it up to
    ${this.colour('Limit of tint', tintDeltaUv, 'tintDeltaUv')}, cast up to
    ${this.colour('Limit of cast', castDeltaUv, 'castDeltaUv')}`;
  }

  private colour(name: string, deltaUv: number, field: 'tintDeltaUv' | 'castDeltaUv') {
    const figure = {
      shown: colourFigure(deltaUv),
      change: (text: string) => asPart(field, parseColourLimit(text)),
      slip: (text: string) => colourSlipWords(text, deltaUv),
    };
    return html`${this.figure(name, figure)} ${colourLimitWords(deltaUv)}`;
  }

  private figure(name: string, { shown, change, slip }: TypedFigure) {
    const read = (event: Event) => {
      const input = event.target as HTMLInputElement;
      const part = change(input.value);
      if (part !== null) {
        this.change(part);
        return;
      }
      this.tell('evenfield-slip', slip(input.value.trim()));
      input.value = shown; // a slip changes nothing
    };
    return html`<input aria-label=${name} inputmode="decimal" autocomplete="off" .value=${shown} @change=${read} />`;
  }

  private change(part: Partial<Tolerance>): void {
    this.tell('evenfield-tolerance', ownTolerance(this.tolerance, part));
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

function asPart(field: 'limit' | 'tintDeltaUv' | 'castDeltaUv', figure: number | null) {
  return figure === null ? null : { [field]: figure };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-own-tolerance': EvenfieldOwnTolerance;
  }
}
