import { html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Reading } from '../engine/reading.ts';
import { LEAST_SLOPE_EV } from '../plots/has-slope.ts';
import { figureList } from './figure-list.styles.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { gradientFigures } from './words/cast-words.ts';
import { percent, stops } from './words/figures.ts';

/** The falloff as one straight ramp: four figures to type into any editor. */
@customElement('evenfield-gradient')
export class EvenfieldGradient extends OwnTaskElement {
  static override styles = [type, figureList];

  @property({ attribute: false }) reading!: Reading;

  override render() {
    const { gradient } = this.reading;
    const figures = gradientFigures(gradient);
    if (figures === null)
      return html`<h2>As one straight ramp</h2>
        <p>No slope of ${stops(LEAST_SLOPE_EV, 2)} or more that is larger than its own ±: a straight ramp would take next to nothing out.</p>`;
    return html`<h2>As one straight ramp</h2>
      <dl>
        ${figures.map(([name, figure]) => html`<div class="figure"><dt>${name}</dt><dd class="large">${figure}</dd></div>`)}
      </dl>
      <p class="small quiet">
        The light rises by this much from corner to corner along the angle, clockwise from “to the right”. The opposite
        ramp takes it out; it explains ${percent(gradient.explains)} of the falloff.
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-gradient': EvenfieldGradient;
  }
}
