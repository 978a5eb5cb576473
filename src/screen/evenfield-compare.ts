import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { NotComparable } from '../engine/compare/compare-readings.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { type ComparedTakes, comparedTakes } from '../plots/compared-takes.ts';
import {
  type DifferencePlot,
  differenceSize,
  lightDifferencePlot,
  tintDifferencePlot,
} from '../plots/difference-plot.ts';
import type { DrawingSize } from '../plots/map-plot.ts';
import { exposedTake } from '../takes/exposed-take.ts';
import { type HeldTake, takeNumber } from '../takes/take.ts';
import { compareStyles } from './evenfield-compare.styles.ts';
import './evenfield-map-drawing.ts';
import { figureList } from './figure-list.styles.ts';
import { inTasks } from './in-tasks.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { OwnWidth } from './own-width.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import {
  compareFigures,
  differenceLegend,
  differenceSummary,
  NOT_COMPARABLE_WORDS,
} from './words/compare-words.ts';
import type { MapMode } from './words/map-words.ts';
import { takeName } from './words/take-words.ts';

const WIDEST = 620;
const HIGHEST = 460;
const MODE_WORDS: Record<MapMode, string> = { light: 'light', tint: 'tint' };

/** A drawing with what it was drawn of. */
interface DrawnDifference {
  readonly plot: DifferencePlot;
  readonly size: DrawingSize;
  readonly mode: MapMode;
  readonly both: ComparedTakes;
}

/** Any two takes held against each other: a map of what changed, and by how much. */
@customElement('evenfield-compare')
export class EvenfieldCompare extends OwnTaskElement {
  static override styles = [type, sentenceStyles, figureList, compareStyles];

  private readonly width = new OwnWidth(this, WIDEST);
  private drawing = 0;
  private wanted = '';

  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @property({ attribute: false }) tolerance!: Tolerance;
  @state() private isOpen = false;
  @state() private mode: MapMode = 'light';
  /** Ids; `null` until chosen: the newest against the one before it. */
  @state() private nowId: string | null = null;
  @state() private beforeId: string | null = null;
  @state() private both: ComparedTakes | NotComparable | null = null;
  @state() private drawn: DrawnDifference | null = null;

  private get takeNow(): HeldTake {
    return this.takes.find(({ id }) => id === this.nowId) ?? this.takes.at(-1)!;
  }

  private get takeBefore(): HeldTake {
    return this.takes.find(({ id }) => id === this.beforeId) ?? this.takes.at(-2)!;
  }

  override willUpdate(changed: PropertyValues): void {
    if (!this.isOpen || this.takes.length < 2) return;
    if (['takes', 'nowId', 'beforeId', 'isOpen'].some((key) => changed.has(key)))
      this.both = comparedTakes(exposedTake(this.takeNow), exposedTake(this.takeBefore));
    if (['takes', 'nowId', 'beforeId', 'isOpen', 'mode', 'tolerance'].some((key) => changed.has(key)))
      this.wanted = '';
  }

  override updated(): void {
    const wish = String(this.width.px);
    if (!this.isOpen || this.width.px === 0 || wish === this.wanted) return;
    this.wanted = wish;
    void this.draw();
  }

  private async draw(): Promise<void> {
    const { both, mode, tolerance } = this;
    this.drawing++;
    const drawing = this.drawing;
    if (both === null || typeof both === 'string') {
      this.drawn = null;
      return;
    }
    const { compared } = both;
    const size = differenceSize(compared, this.takeNow.reading.frame, {
      width: this.width.px,
      height: HIGHEST,
    });
    const steps =
      mode === 'light'
        ? lightDifferencePlot(compared, size)
        : tintDifferencePlot(compared, tolerance.tintDeltaUv, size);
    const plot = await inTasks(steps, () => drawing === this.drawing && this.isConnected);
    if (plot !== null) this.drawn = { plot, size, mode, both };
  }

  override render() {
    if (this.takes.length < 2) return nothing;
    return html`<details
      @toggle=${(event: Event) => {
        this.isOpen = (event.target as HTMLDetailsElement).open;
      }}
    >
      <summary>Compare two takes</summary>
      ${this.isOpen ? this.sentence() : nothing}
    </details>`;
  }

  private sentence() {
    const names = Object.fromEntries(
      this.takes.map((take) => [take.id, `Take ${takeNumber(take)}, ${takeName(take)}`]),
    );
    const { both } = this;
    return html`<p>
        ${wordChoice('The take that is compared', this.takeNow.id, names, (id) => {
          this.nowId = id;
        })}
        against
        ${wordChoice('The take it is compared with', this.takeBefore.id, names, (id) => {
          this.beforeId = id;
        })},
        place by place, in
        ${wordChoice('What is compared', this.mode, MODE_WORDS, (mode) => {
          this.mode = mode;
        })}.
      </p>
      ${
        typeof both === 'string'
          ? html`<p class="refused">${NOT_COMPARABLE_WORDS[both]}</p>`
          : both === null
            ? nothing
            : html`<div class="sheet">${this.map()} ${this.figures(both)} ${this.legend()}</div>`
      }`;
  }

  private map() {
    if (this.drawn === null) return nothing;
    const { plot, size, mode, both } = this.drawn;
    const { compared } = both;
    for (const side of ['width', 'height'] as const) this.style.setProperty(`--${side}`, `${size[side]}px`);
    return html`<evenfield-map-drawing
        .plot=${plot}
        .width=${size.width}
        .height=${size.height}
        .fontSize=${size.fontSize}
        .name=${`Difference of ${MODE_WORDS[mode]}`}
        .says=${differenceSummary(mode, compared)}
      ></evenfield-map-drawing>`;
  }

  private legend() {
    if (this.drawn === null) return nothing;
    const { plot, mode, both } = this.drawn;
    const words = differenceLegend(mode, plot, both.compared, this.tolerance.tintDeltaUv);
    return html`<p class="small quiet legend">${words}</p>`;
  }

  private figures({ compared, light }: ComparedTakes) {
    const figures = compareFigures(compared, light);
    return html`<dl>${figures.map(([name, figure]) => html`<div class="figure"><dt>${name}</dt><dd>${figure}</dd></div>`)}</dl>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-compare': EvenfieldCompare;
  }
}
