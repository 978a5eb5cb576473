import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Tolerance } from '../engine/tolerance.ts';
import { mapLayout } from '../plots/map-layout.ts';
import { rememberedMapLines } from '../plots/map-lines.ts';
import { falloffPlot, type MapPlot, tintPlot } from '../plots/map-plot.ts';
import { believedSet, planInput } from '../plots/plan-input.ts';
import { planPage } from '../plots/plan-page.ts';
import { setupAtTake } from '../takes/setup-after.ts';
import type { FullTake, HeldTake } from '../takes/take.ts';
import './evenfield-frame-picture.ts';
import './evenfield-map-drawing.ts';
import './evenfield-verdict.ts';
import { recordStyles } from './evenfield-record.styles.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { isPrintedWith } from './print-alone.ts';
import { aimWords } from './words/aim-words.ts';
import { castFigures } from './words/cast-words.ts';
import { levelFigures } from './words/exposure-words.ts';
import type { LengthUnit } from './words/length-words.ts';
import { type MapMode, mapLegend, mapSummary } from './words/map-words.ts';
import { whatToDo } from './words/move-words.ts';
import { planNotes, planSummary } from './words/plan-words.ts';
import {
  enteredFigures,
  exposureWords,
  falloffFigures,
  judgedByWords,
  rampFigures,
} from './words/record-words.ts';
import { takeName } from './words/take-words.ts';

/** Room for one of two maps beside each other, in CSS pixels. */
const MAP_ROOM = { width: 400, height: 290, textPx: 16 };

/** 40 mm. */
const PICTURE_WIDTH = 151;

/**
 * One take as a page to print: what a set can be built again from. Shown on paper alone, and drawn when the browser is
 * about to print.
 */
@customElement('evenfield-record')
export class EvenfieldRecord extends OwnTaskElement {
  static override styles = [type, recordStyles];

  @property({ attribute: false }) take!: FullTake;
  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() unit: LengthUnit = 'cm';

  @state() private isPrinted = false;

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('beforeprint', this.prepare);
    window.addEventListener('afterprint', this.putAway);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('beforeprint', this.prepare);
    window.removeEventListener('afterprint', this.putAway);
    super.disconnectedCallback();
  }

  override render() {
    const { widthPx, heightPx } = this.take.reading.frame;
    // decoding takes a moment, which paper does not wait for: the picture is made ready beforehand
    const file = this.take.frames[0]?.blob ?? null;
    return html`<evenfield-frame-picture
        .file=${file}
        .width=${PICTURE_WIDTH}
        .height=${(PICTURE_WIDTH * heightPx) / widthPx}
      ></evenfield-frame-picture>
      ${this.isPrinted ? this.page() : nothing}`;
  }

  private page() {
    const { take, tolerance, unit } = this;
    const { reading, report, note } = take;
    const exposure = exposureWords(reading.frame.exposure);
    const { widthPx, heightPx } = reading.frame;
    return html`<p class="head">
        <strong>${takeName(take)}</strong>
        <span>${[reading.frame.exposure?.takenAt?.replace('T', ' '), exposure].filter(Boolean).join(' · ')}</span>
        <span>Evenfield</span>
      </p>
      <evenfield-verdict class=${report.aimed === null ? '' : 'aimed'} .reading=${reading} .tolerance=${tolerance} .aimed=${report.aimed}></evenfield-verdict>
      <p>Judged by: ${judgedByWords(tolerance)}${report.aimed === null ? nothing : ` The background is to be ${aimWords(report.aimed.aim)}.`}</p>
      <div class="maps">${this.map('light')} ${this.map('tint')}</div>
      <div class="columns">
        <section>
          <h2>Light</h2>
          ${list(falloffFigures(reading))} ${list(rampFigures(reading))}
        </section>
        <section><h2>Exposure</h2>${list(levelFigures(report.level))}</section>
        <section><h2>Cast</h2>${list(castFigures(reading))}</section>
        <section>
          <h2>The set</h2>
          ${list(enteredFigures(setupAtTake(this.takes, take.id), unit))} ${this.asFitted()}
        </section>
        ${this.moves()} ${note === '' ? nothing : html`<section><h2>Note</h2><p>${note}</p></section>`}
      </div>
      <p class="small quiet">${widthPx} × ${heightPx} pixels, ${reading.frame.colourProfile}. ${reading.frame.sha256 === null ? '' : `SHA-256 of the file: ${reading.frame.sha256}`}</p>`;
  }

  private map(mode: MapMode) {
    const { take, tolerance } = this;
    const { reading, report } = take;
    const layout = mapLayout(reading, MAP_ROOM);
    for (const side of ['width', 'height'] as const) this.style.setProperty(`--${side}`, `${layout[side]}px`);
    const steps = mode === 'light' ? falloffPlot : tintPlot;
    const plot = toItsEnd(
      steps(reading, tolerance, layout, report.grid.highlightShare, rememberedMapLines()),
    );
    return html`<figure>
      <evenfield-map-drawing
        .plot=${plot}
        .width=${layout.width}
        .height=${layout.height}
        .fontSize=${layout.fontSize}
        .name=${mode === 'light' ? 'Light' : 'Tint'}
        .says=${mapSummary(mode, reading)}
      ></evenfield-map-drawing>
      <figcaption>${mode === 'light' ? 'Light' : 'Tint'}. ${mapLegend(mode, plot, reading, tolerance, false)}</figcaption>
    </figure>`;
  }

  /** The set as the frame itself shows it, in the words of the plan. */
  private asFitted() {
    const { take, unit } = this;
    const setup = setupAtTake(this.takes, take.id);
    const input = planInput({ ...take.reading, moves: [] }, setup, believedSet(take.report, setup));
    const page = planPage(input, 'above', (view) => planNotes(view, input, unit));
    return html`<p>${planSummary(page.view, input, unit)}</p>`;
  }

  private moves() {
    const { take, unit } = this;
    const at = this.takes.findIndex(({ id }) => id === take.id);
    const before = this.takes[at - 1];
    const made = take.done ?? [];
    const setup = before === undefined ? take.setup : setupAtTake(this.takes, before.id);
    return html`<section><h2>Moves made before it</h2>
      ${
        made.length === 0
          ? html`<p>${take.done === null ? 'None: the first take of its set-up.' : 'Nothing was moved.'}</p>`
          : html`<ol>${made.map((move) => html`<li>${whatToDo(move, setup, unit)}</li>`)}</ol>`
      }</section>`;
  }

  private readonly prepare = () => {
    if (!isPrintedWith(this)) return;
    this.isPrinted = true;
    this.performUpdate(); // paper does not wait
  };

  private readonly putAway = () => {
    this.isPrinted = false;
  };
}

const list = (figures: readonly (readonly [string, string])[]) =>
  html`<dl>${figures.map(([name, figure]) => html`<div class="figure"><dt>${name}</dt><dd>${figure}</dd></div>`)}</dl>`;

function toItsEnd(work: Generator<void, MapPlot>): MapPlot {
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-record': EvenfieldRecord;
  }
}
