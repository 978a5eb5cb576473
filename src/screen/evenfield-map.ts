import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type FramePoint, type Reading, WHOLE_FRAME } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { type MapLayout, mapLayout } from '../plots/map-layout.ts';
import { rememberedMapLines } from '../plots/map-lines.ts';
import { CLIPPED_TO_SPEAK_OF, falloffPlot, tintPlot } from '../plots/map-plot.ts';
import { spotReading } from '../plots/spot-reading.ts';
import type { DrawnMap } from './drawn-map.ts';
import './evenfield-map-frame.ts';
import { mapStyles } from './evenfield-map.styles.ts';
import type { MapSpot } from './evenfield-map-frame.ts';
import type { RegionWish } from './evenfield-map-region.ts';
import { inTasks } from './in-tasks.ts';
import { type } from './paper.ts';
import { sameData } from './same-data.ts';
import {
  LONGEST_SPOT_WORDS,
  type MapMode,
  mapLegend,
  type SpotClipping,
  spotWords,
} from './words/map-words.ts';
import { regionWords } from './words/region-words.ts';

/** Height of the window that the map may fill with its sections, so that both are seen at once. */
const SHARE_OF_WINDOW = 0.86;
const MODES: readonly MapMode[] = ['light', 'tint'];

/** Whether both readings are of the same part of the same file: one judged anew is a new object of the same picture. */
function isSamePicture(a: Reading, b: Reading): boolean {
  return a.frame.sha256 === b.frame.sha256 && a.frame.name === b.frame.name && sameData(a.region, b.region);
}

/**
 * The map of light or of tint, with its cross-sections and what is read at one spot.
 * @event evenfield-region - {RegionWish} the part of the frame that is to be read instead
 */
@customElement('evenfield-map')
export class EvenfieldMap extends LitElement {
  static override styles = [type, mapStyles];

  private drawing = 0;
  private readonly linesOf = { light: rememberedMapLines(), tint: rememberedMapLines() };
  /** Of what is read now; the map that is not shown is drawn in advance, so that the switch answers at once. */
  private readonly maps = new Map<MapMode, DrawnMap>();
  private readonly resizing = new ResizeObserver(() => this.layOut());

  @state() private mode: MapMode = 'light';
  @state() private spot: MapSpot = { column: 0, row: 0 };
  @state() private layout: MapLayout | null = null;
  @state() private drawn: DrawnMap | null = null;

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) tolerance!: Tolerance;
  /** Share of clipped pixels in each cell, 0 to 1. */
  @property({ attribute: false }) clippedShare!: Float64Array;
  /** A place that a finding speaks of. */
  @property({ attribute: false }) marked: FramePoint | null = null;
  /** The file that was read, where another part of it can be read; `null` otherwise. */
  @property({ attribute: false }) file: Blob | null = null;
  /** How the part that was read was found, where it was. */
  @property() regionSays: string | null = null;

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
      if (before === undefined || !isSamePicture(before, this.reading))
        this.spot = { column: Math.floor(columns / 2), row: Math.floor(rows / 2) };
      if (this.layout !== null) this.layOut(); // the first time, once the page has been laid out
    }
    if (['reading', 'tolerance', 'layout'].some((key) => changed.has(key))) {
      this.maps.clear();
      void this.draw();
    } else if (changed.has('mode')) {
      this.drawn = this.maps.get(this.mode) ?? this.drawn;
      void this.draw();
    }
  }

  /** Draws over several tasks, since contours take long; what is shown stays until the new drawing is there. */
  private async draw(): Promise<void> {
    const { layout, mode, reading, tolerance } = this;
    if (layout === null) return;
    this.drawing++;
    const drawing = this.drawing;
    const isWanted = () => drawing === this.drawing && this.isConnected;
    for (const each of mode === 'light' ? MODES : MODES.toReversed()) {
      if (this.maps.has(each)) continue;
      const steps = each === 'light' ? falloffPlot : tintPlot;
      const plot = await inTasks(
        steps(reading, tolerance, layout, this.clippedShare, this.linesOf[each]),
        isWanted,
      );
      if (plot === null) return;
      this.maps.set(each, { plot, layout, mode: each, reading, tolerance });
      if (each === mode) this.drawn = this.maps.get(each)!;
      else this.requestUpdate(); // its legend takes up its room
    }
  }

  override render() {
    return html`<div class="switch" role="radiogroup" aria-label="Show on the map">
        ${this.modeChoice('light', 'Light')} ${this.modeChoice('tint', 'Tint')}
      </div>
      ${this.drawn === null ? nothing : this.sheet(this.drawn)}`;
  }

  private sheet(drawn: DrawnMap) {
    const { reading } = drawn;
    const read = spotReading(reading, this.spot.column, this.spot.row);
    const part = regionWords(reading.region);
    return html`<evenfield-map-frame
        .drawn=${drawn}
        .spot=${{ column: read.column, row: read.row }}
        .marked=${this.marked}
        .file=${this.file}
        @evenfield-spot=${(event: CustomEvent<MapSpot>) => {
          this.spot = event.detail;
        }}
      ></evenfield-map-frame>
      <p class="spot" id="spot" role="status" aria-label="At the spot" data-longest=${LONGEST_SPOT_WORDS}><span>${spotWords(read, this.clippingAt(read))}</span></p>
      ${part === null ? nothing : this.partRead(part)}
      <div class="legends small quiet">${MODES.map((mode) => this.legend(mode, drawn))}</div>`;
  }

  private clippingAt({ column, row }: MapSpot): SpotClipping {
    const { grid, falloff } = this.reading;
    const share = this.clippedShare[row * grid.columns + column] ?? 0;
    return { isClipped: share >= CLIPPED_TO_SPEAK_OF, isLowerBound: falloff.isLowerBound };
  }

  /** Both lie in one place, one of them unseen: the page below does not jump from one map to the other. */
  private legend(mode: MapMode, shown: DrawnMap) {
    const isShown = mode === shown.mode;
    const { plot, reading, tolerance } = (isShown ? shown : this.maps.get(mode)) ?? {};
    if (plot === undefined || reading === undefined || tolerance === undefined) return nothing;
    return html`<p class=${isShown ? '' : 'other'}>${mapLegend(mode, plot, reading, tolerance)}</p>`;
  }

  private partRead(part: string) {
    return html`<div class="part">
      <p>${this.regionSays ?? part}</p>
      ${this.file === null ? nothing : html`<button @click=${this.readWhole}>Read the whole frame again</button>`}
    </div>`;
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

  private layOut(): void {
    if (this.clientWidth === 0) return;
    const textPx = Number.parseFloat(getComputedStyle(this).fontSize);
    const room = { width: this.clientWidth, height: window.innerHeight * SHARE_OF_WINDOW, textPx };
    const layout = mapLayout(this.reading, room);
    if (this.layout !== null && JSON.stringify(layout) === JSON.stringify(this.layout)) return;
    this.layout = layout;
  }

  private readWhole(): void {
    const detail: RegionWish = { region: WHOLE_FRAME, refuse: () => {} };
    this.dispatchEvent(new CustomEvent('evenfield-region', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-map': EvenfieldMap;
  }
}
