import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FramePoint } from '../engine/reading.ts';
import { cellAtPlace, placeInDrawing } from '../plots/map-layout.ts';
import { sectionPlot } from '../plots/section-plot.ts';
import { spotReading } from '../plots/spot-reading.ts';
import type { DrawnMap } from './drawn-map.ts';
import './evenfield-frame-picture.ts';
import './evenfield-map-drawing.ts';
import './evenfield-map-region.ts';
import './evenfield-section.ts';
import { mapFrameStyles } from './evenfield-map-frame.styles.ts';
import { type } from './paper.ts';
import { mapSummary } from './words/map-words.ts';
import { isWholeFrame } from './words/region-words.ts';

const STEPS: Record<string, readonly [columns: number, rows: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const LONG_STRIDE = 8;

/** A cell of the map. */
export interface MapSpot {
  readonly column: number;
  readonly row: number;
}

/**
 * The whole frame with the map where it was read, the handles round that part, and the cross-sections along it.
 * @event evenfield-spot - {MapSpot} the cell that is pointed at, or stepped to by the arrow keys
 */
@customElement('evenfield-map-frame')
export class EvenfieldMapFrame extends LitElement {
  static override styles = [type, mapFrameStyles];

  @property({ attribute: false }) drawn!: DrawnMap;
  @property({ attribute: false }) spot: MapSpot = { column: 0, row: 0 };
  @property({ attribute: false }) marked: FramePoint | null = null;
  /** The file that was read; `null` where another part of it cannot be. */
  @property({ attribute: false }) file: Blob | null = null;

  override willUpdate(): void {
    const { frameWidth, frameHeight, left, top, width, height } = this.drawn.layout;
    const sizes = { frameWidth, frameHeight, left, top, width, height };
    for (const [name, size] of Object.entries(sizes)) this.style.setProperty(`--${name}`, `${size}px`);
  }

  override render() {
    const { reading, layout } = this.drawn;
    return html`<div class="sheet">
      <div class="frame">
        ${
          isWholeFrame(reading.region)
            ? nothing
            : html`<evenfield-frame-picture .file=${this.file} .width=${layout.frameWidth} .height=${layout.frameHeight}></evenfield-frame-picture>`
        }
        ${this.map()}
        ${
          this.file === null
            ? nothing
            : html`<evenfield-map-region .file=${this.file} .region=${reading.region} .width=${layout.frameWidth} .height=${layout.frameHeight}></evenfield-map-region>`
        }
      </div>
      ${this.section('down')} ${this.section('across')}
    </div>`;
  }

  private map() {
    const { plot, layout, mode, reading } = this.drawn;
    const { at } = spotReading(reading, this.spot.column, this.spot.row);
    return html`<div
      class="pointing"
      tabindex="0"
      role="application"
      aria-label="Map: the arrow keys move the spot that is read"
      @pointermove=${this.point}
      @pointerdown=${this.point}
      @keydown=${this.step}
    >
      <evenfield-map-drawing
        .plot=${plot}
        .width=${layout.width}
        .height=${layout.height}
        .fontSize=${layout.fontSize}
        .name=${mode === 'light' ? 'Map of the light' : 'Map of the tint'}
        .says=${mapSummary(mode, reading)}
        .spot=${placeInDrawing(reading, layout, at)}
        .marked=${this.marked === null ? null : placeInDrawing(reading, layout, this.marked)}
      ></evenfield-map-drawing>
    </div>`;
  }

  private section(direction: 'across' | 'down') {
    const { layout, reading, tolerance } = this.drawn;
    const isAcross = direction === 'across';
    const size = {
      length: isAcross ? layout.width : layout.height,
      depth: layout.sectionDepth,
      fontSize: layout.smallFontSize,
    };
    return html`<evenfield-section
      .plot=${sectionPlot(reading, tolerance, direction, this.spot, size)}
      .start=${isAcross ? layout.left : layout.top}
      .whole=${isAcross ? layout.frameWidth : layout.frameHeight}
    ></evenfield-section>`;
  }

  private point(event: PointerEvent): void {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const place = [event.clientX - box.left, event.clientY - box.top] as const;
    this.read(cellAtPlace(this.drawn.reading, this.drawn.layout, place));
  }

  private step(event: KeyboardEvent): void {
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const stride = event.shiftKey ? LONG_STRIDE : 1;
    const { column, row } = this.spot;
    this.read(spotReading(this.drawn.reading, column + step[0] * stride, row + step[1] * stride));
  }

  private read({ column, row }: MapSpot): void {
    if (column === this.spot.column && row === this.spot.row) return;
    this.dispatchEvent(new CustomEvent('evenfield-spot', { detail: { column, row } }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-map-frame': EvenfieldMapFrame;
  }
}
