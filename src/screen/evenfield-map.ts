import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { FramePoint, Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { cellAtPlace, type MapLayout, mapLayout, placeInDrawing } from '../plots/map-layout.ts';
import { falloffPlot, type MapPlot, tintPlot } from '../plots/map-plot.ts';
import { type SectionPlot, sectionPlot } from '../plots/section-plot.ts';
import { spotReading } from '../plots/spot-reading.ts';
import './evenfield-map-drawing.ts';
import './evenfield-section.ts';
import { mapStyles } from './evenfield-map.styles.ts';
import { type } from './paper.ts';
import { type MapMode, mapLegend, mapSummary, spotWords } from './words/map-words.ts';

const STEPS: Record<string, readonly [columns: number, rows: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The map of light or of tint, with its cross-sections and what is read at one spot. */
@customElement('evenfield-map')
export class EvenfieldMap extends LitElement {
  static override styles = [type, mapStyles];

  private readonly resizing = new ResizeObserver(() => this.layOut());

  @state() private mode: MapMode = 'light';
  @state() private spot = { column: 0, row: 0 };
  @state() private layout: MapLayout | null = null;

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) tolerance!: Tolerance;
  /** Share of clipped pixels in each cell, 0 to 1. */
  @property({ attribute: false }) clippedShare!: Float64Array;
  /** A place that a finding speaks of. */
  @property({ attribute: false }) marked: FramePoint | null = null;

  private plot: MapPlot | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.resizing.observe(this);
  }

  override disconnectedCallback(): void {
    this.resizing.disconnect();
    super.disconnectedCallback();
  }

  override willUpdate(changed: PropertyValues): void {
    if (changed.has('reading')) {
      const { columns, rows } = this.reading.grid;
      const before = changed.get('reading') as Reading | undefined;
      if (before?.frame !== this.reading.frame)
        this.spot = { column: Math.floor(columns / 2), row: Math.floor(rows / 2) };
      if (this.layout !== null) this.layOut(); // the first time, once the page has been laid out
    }
    if (this.layout === null || !['reading', 'tolerance', 'mode', 'layout'].some((key) => changed.has(key)))
      return;
    const size = { ...this.layout, fontSize: 13 };
    const draw = this.mode === 'light' ? falloffPlot : tintPlot;
    this.plot = draw(this.reading, this.tolerance, size, this.clippedShare);
  }

  override render() {
    return html`<div class="switch" role="radiogroup" aria-label="Show on the map">
        ${this.modeChoice('light', 'Light')} ${this.modeChoice('tint', 'Tint')}
      </div>
      ${this.layout === null || this.plot === null ? nothing : this.drawing(this.layout, this.plot)}`;
  }

  private drawing(layout: MapLayout, plot: MapPlot) {
    const read = spotReading(this.reading, this.spot.column, this.spot.row);
    const marked = this.marked === null ? null : placeInDrawing(this.reading, layout, this.marked);
    return html`<div class="sheet">
        <div
          class="pointing"
          tabindex="0"
          role="application"
          aria-label="Map: the arrow keys move the spot that is read"
          aria-describedby="spot"
          @pointermove=${this.point}
          @pointerdown=${this.point}
          @keydown=${this.step}
        >
          <evenfield-map-drawing
            .plot=${plot}
            .width=${layout.width}
            .height=${layout.height}
            .name=${this.mode === 'light' ? 'Map of the light' : 'Map of the tint'}
            .says=${mapSummary(this.mode, this.reading)}
            .spot=${placeInDrawing(this.reading, layout, read.at)}
            .marked=${marked}
          ></evenfield-map-drawing>
        </div>
        <evenfield-section .plot=${this.section('down', layout)}></evenfield-section>
        <evenfield-section .plot=${this.section('across', layout)}></evenfield-section>
      </div>
      <p class="spot" id="spot" role="status" aria-label="At the spot">${spotWords(read)}</p>
      <p class="small quiet">${mapLegend(this.mode, plot, this.reading, this.tolerance)}</p>`;
  }

  private modeChoice(mode: MapMode, label: string) {
    return html`<label
      ><input
        type="radio"
        name="mode"
        ?checked=${this.mode === mode}
        @change=${() => {
          this.mode = mode;
        }}
      />${label}</label
    >`;
  }

  private section(direction: 'across' | 'down', { width, height, sectionDepth }: MapLayout): SectionPlot {
    const length = direction === 'across' ? width : height;
    return sectionPlot(this.reading, this.tolerance, direction, this.spot, { length, depth: sectionDepth });
  }

  private layOut(): void {
    if (this.clientWidth === 0) return;
    const layout = mapLayout(this.reading, { width: this.clientWidth, height: window.innerHeight * 0.86 });
    if (layout.width === this.layout?.width && layout.height === this.layout.height) return;
    this.layout = layout;
    this.style.setProperty('--map-width', `${layout.width}px`);
    this.style.setProperty('--map-height', `${layout.height}px`);
  }

  private point(event: PointerEvent): void {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    this.spot = cellAtPlace(this.reading, this.layout!, [event.clientX - box.left, event.clientY - box.top]);
  }

  private step(event: KeyboardEvent): void {
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const stride = event.shiftKey ? 8 : 1;
    const { column, row } = spotReading(
      this.reading,
      this.spot.column + step[0] * stride,
      this.spot.row + step[1] * stride,
    );
    this.spot = { column, row };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-map': EvenfieldMap;
  }
}
