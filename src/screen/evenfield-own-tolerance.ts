import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Tolerance } from '../engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../engine/tolerances.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import {
  colourLimitWords,
  limitFigure,
  MEASURE_WORDS,
  type Measure,
  ownTolerance,
  parseFigure,
  parseLimit,
  trimmed,
} from './words/tolerance-words.ts';

/**
 * A limit of one's own, as the end of the set-up sentence.
 * @event evenfield-tolerance - {Tolerance} when a figure or the measure was changed
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
    return html`${this.figure('Limit of evenness', limitFigure(this.tolerance), (text) => {
      const limit = parseLimit(text, measure);
      return limit === null ? null : { limit };
    })}
    <select aria-label="Measure of evenness" @change=${(event: Event) => this.change({ measure: (event.target as HTMLSelectElement).value as Measure })}>
      ${Object.entries(MEASURE_WORDS).map(([key, words]) => html`<option value=${key} ?selected=${key === measure}>${words}</option>`)}</select
    >; tint within it up to
    ${this.colour('Limit of tint', tintDeltaUv, 'tintDeltaUv')}, cast up to
    ${this.colour('Limit of cast', castDeltaUv, 'castDeltaUv')}`;
  }

  private colour(name: string, deltaUv: number, field: 'tintDeltaUv' | 'castDeltaUv') {
    return html`${this.figure(name, trimmed(deltaUv, 4), (text) => {
      const typed = parseFigure(text);
      return typed === null ? null : { [field]: typed };
    })} ${colourLimitWords(deltaUv)}`;
  }

  private figure(name: string, shown: string, parse: (text: string) => Partial<Tolerance> | null) {
    const read = (event: Event) => {
      const input = event.target as HTMLInputElement;
      const change = parse(input.value);
      if (change === null)
        input.value = shown; // a slip changes nothing
      else this.change(change);
    };
    return html`<input aria-label=${name} inputmode="decimal" autocomplete="off" .value=${shown} @change=${read} />`;
  }

  private change(part: Partial<Tolerance>): void {
    const detail = ownTolerance(this.tolerance, part);
    this.dispatchEvent(new CustomEvent('evenfield-tolerance', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-own-tolerance': EvenfieldOwnTolerance;
  }
}
