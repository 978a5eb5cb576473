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
import { inTasks } from './in-tasks.ts';
import { type } from './paper.ts';
import { type MapMode, mapLegend, mapSummary, spotWords } from './words/map-words.ts';

const STEPS: Record<string, readonly [columns: number, rows: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** A finished drawing, with all that it was made from. */
interface DrawnMap {
  readonly plot: MapPlot;
  readonly layout: MapLayout;
  readonly mode: MapMode;
  readonly reading: Reading;
  readonly tolerance: Tolerance;
}

/** The map of light or of tint, with its cross-sections and what is read at one spot. */
@customElement('evenfield-map')
export class EvenfieldMap extends LitElement {
  static override styles = [type, mapStyles];

  private drawing = 0;
  private readonly resizing = new ResizeObserver(() => this.layOut());

  @state() private mode: MapMode = 'light';
  @state() private spot = { column: 0, row: 0 };
  @state() private layout: MapLayout | null = null;
  @state() private drawn: DrawnMap | null = null;

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) tolerance!: Tolerance;
  /** Share of clipped pixels in each cell, 0 to 1. */
  @property({ attribute: false }) clippedShare!: Float64Array;
  /** A place that a finding speaks of. */
  @property({ attribute: false }) marked: FramePoint | null = null;

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
    if (['reading', 'tolerance', 'mode', 'layout'].some((key) => changed.has(key))) void this.draw();
  }

  /** Draws over several tasks, since contours take long; what is shown stays until the new drawing is there. */
  private async draw(): Promise<void> {
    const { layout, mode, reading, tolerance } = this;
    if (layout === null) return;
    this.drawing++;
    const drawing = this.drawing;
    const steps = mode === 'light' ? falloffPlot : tintPlot;
    const plot = await inTasks(
      steps(reading, tolerance, { ...layout, fontSize: 13 }, this.clippedShare),
      () => drawing === this.drawing && this.isConnected,
    );
    if (plot === null) return;
    this.style.setProperty('--map-width', `${layout.width}px`);
    this.style.setProperty('--map-height', `${layout.height}px`);
    this.drawn = { plot, layout, mode, reading, tolerance };
  }

  override render() {
    return html`<div class="switch" role="radiogroup" aria-label="Show on the map">
        ${this.modeChoice('light', 'Light')} ${this.modeChoice('tint', 'Tint')}
      </div>
      ${this.drawn === null ? nothing : this.sheet(this.drawn)}`;
  }

  private sheet(drawn: DrawnMap) {
    const { plot, layout, mode, reading, tolerance } = drawn;
    const read = spotReading(reading, this.spot.column, this.spot.row);
    const marked = this.marked === null ? null : placeInDrawing(reading, layout, this.marked);
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
            .name=${mode === 'light' ? 'Map of the light' : 'Map of the tint'}
            .says=${mapSummary(mode, reading)}
            .spot=${placeInDrawing(reading, layout, read.at)}
            .marked=${marked}
          ></evenfield-map-drawing>
        </div>
        <evenfield-section .plot=${this.section('down', drawn)}></evenfield-section>
        <evenfield-section .plot=${this.section('across', drawn)}></evenfield-section>
      </div>
      <p class="spot" id="spot" role="status" aria-label="At the spot">${spotWords(read)}</p>
      <p class="small quiet">${mapLegend(mode, plot, reading, tolerance)}</p>`;
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

  private section(direction: 'across' | 'down', { layout, reading, tolerance }: DrawnMap): SectionPlot {
    const length = direction === 'across' ? layout.width : layout.height;
    return sectionPlot(reading, tolerance, direction, this.spot, { length, depth: layout.sectionDepth });
  }

  private layOut(): void {
    if (this.clientWidth === 0) return;
    const layout = mapLayout(this.reading, { width: this.clientWidth, height: window.innerHeight * 0.86 });
    if (layout.width === this.layout?.width && layout.height === this.layout.height) return;
    this.layout = layout;
  }

  private point(event: PointerEvent): void {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    this.spot = cellAtPlace(this.drawn!.reading, this.drawn!.layout, [
      event.clientX - box.left,
      event.clientY - box.top,
    ]);
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
