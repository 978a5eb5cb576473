import { css, html, LitElement, type PropertyValues, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type FrameRectangle, WHOLE_FRAME } from '../engine/reading.ts';
import { handlePlace, REGION_HANDLES, type RegionHandle, regionWithHandleAt } from '../plots/map-region.ts';
import { type } from './paper.ts';
import { handleName, handlePlaceWords } from './words/region-words.ts';

const STEPS: Record<string, readonly [across: number, down: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const STEP = 0.01;
const LONG_STEP = 0.05;
/** So long after the last key a new region is taken as meant. */
const KEY_PAUSE_MS = 700;

/** A part of the frame to be read; `refuse` is called where it could not be. */
export interface RegionWish {
  readonly region: FrameRectangle;
  readonly refuse: () => void;
}

/**
 * The outline of the part that is read, with a handle on every side and corner, to be laid over the whole frame.
 * @event evenfield-region - {RegionWish} the part that is wanted, once the handle was let go
 */
@customElement('evenfield-map-region')
export class EvenfieldMapRegion extends LitElement {
  static override styles = [
    type,
    css`
      :host {
        pointer-events: none;
      }
      svg {
        display: block;
        overflow: visible;
        touch-action: none; /* on a shape inside it does not count */
      }
      .outline {
        fill: none;
        stroke: #191919;
      }
      g {
        pointer-events: all;
        outline: none;
      }
      .reach {
        fill: transparent;
        stroke: none;
      }
      .knob {
        fill: #e2e2e2;
        stroke: #191919;
      }
      g:hover .knob {
        fill: #191919;
      }
      g:focus-visible .knob {
        fill: #191919;
        stroke: #e2e2e2;
        stroke-width: 3;
        paint-order: stroke;
      }
      .sideways {
        cursor: ew-resize;
      }
      .upright {
        cursor: ns-resize;
      }
      .falling {
        cursor: nwse-resize;
      }
      .rising {
        cursor: nesw-resize;
      }
    `,
  ];

  /** The part that was read. One judged anew says the same: a handle that is being moved stays where it is. */
  @property({
    attribute: false,
    hasChanged: (now: FrameRectangle, before?: FrameRectangle) => !before || !sameRectangle(now, before),
  })
  region: FrameRectangle = WHOLE_FRAME;
  /** What was read. */
  @property({ attribute: false }) file: Blob | null = null;
  /** Of the whole frame's drawing. */
  @property({ type: Number }) width = 0;
  @property({ type: Number }) height = 0;

  @state() private wanted: FrameRectangle | null = null;
  /** The part that was asked for last. */
  private asked: FrameRectangle | null = null;
  private held: { handle: RegionHandle; pointerId: number } | null = null;
  private pause: ReturnType<typeof setTimeout> | undefined;

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('file')) this.giveUp(); // of another frame nothing was wanted yet
    if (!changed.has('region')) return;
    // where what was asked for comes, a handle may have been moved on since: that is still to be asked for
    const isMovedOn = this.held !== null || this.pause !== undefined;
    const isAsked = this.asked !== null && sameRectangle(this.region, this.asked);
    if (!(isAsked && isMovedOn)) this.forget();
  }

  override disconnectedCallback(): void {
    this.stopWaiting();
    super.disconnectedCallback();
  }

  override render() {
    const { left, top, right, bottom } = this.wanted ?? this.region;
    const { width, height } = this;
    return html`<svg width=${width} height=${height} role="group" aria-label="Part of the frame that is read">
      <rect class="outline" x=${left * width} y=${top * height} width=${(right - left) * width} height=${(bottom - top) * height} />
      ${REGION_HANDLES.map((handle) => this.handle(handle))}
    </svg>`;
  }

  private handle(handle: RegionHandle) {
    const region = this.wanted ?? this.region;
    const { x, y } = handlePlace(region, handle);
    const { across, down } = handle;
    const [wide, tall] = across === null ? [22, 8] : down === null ? [8, 22] : [12, 12];
    return svg`<g
      class=${cursorOf(handle)}
      role="slider"
      tabindex="0"
      aria-label=${handleName(handle)}
      aria-orientation=${across === null ? 'vertical' : 'horizontal'}
      aria-valuemin="0"
      aria-valuemax="100"
      aria-valuenow=${Math.round((across === null ? y : x) * 100)}
      aria-valuetext=${handlePlaceWords(handle, region)}
      transform=${`translate(${x * this.width} ${y * this.height})`}
      @pointerdown=${(event: PointerEvent) => this.take(event, handle)}
      @pointermove=${this.move}
      @pointerup=${this.release}
      @pointercancel=${this.giveUp}
      @keydown=${(event: KeyboardEvent) => this.step(event, handle)}
    ><rect class="reach" x="-14" y="-14" width="28" height="28" /><rect class="knob" x=${-wide / 2} y=${-tall / 2} width=${wide} height=${tall} /></g>`;
  }

  private take(event: PointerEvent, handle: RegionHandle): void {
    event.preventDefault(); // no text is to be selected on the way
    (event.currentTarget as SVGGElement).setPointerCapture(event.pointerId);
    (event.currentTarget as SVGGElement).focus({ preventScroll: true });
    this.held = { handle, pointerId: event.pointerId };
  }

  private move(event: PointerEvent): void {
    if (this.held?.pointerId !== event.pointerId) return;
    const box = this.getBoundingClientRect();
    const place = { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height };
    this.wanted = regionWithHandleAt(this.wanted ?? this.region, this.held.handle, place);
  }

  private release(event: PointerEvent): void {
    if (this.held?.pointerId !== event.pointerId) return;
    this.held = null;
    this.ask();
  }

  private giveUp(): void {
    this.held = null;
    this.forget();
  }

  private forget(): void {
    this.stopWaiting();
    this.wanted = null;
  }

  private stopWaiting(): void {
    clearTimeout(this.pause);
    this.pause = undefined;
  }

  private step(event: KeyboardEvent, handle: RegionHandle): void {
    if (event.key === 'Escape') this.giveUp();
    if (event.key === 'Enter') this.ask();
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const region = this.wanted ?? this.region;
    const { x, y } = handlePlace(region, handle);
    const stride = event.shiftKey ? LONG_STEP : STEP;
    this.wanted = regionWithHandleAt(region, handle, { x: x + step[0] * stride, y: y + step[1] * stride });
    this.stopWaiting();
    this.pause = setTimeout(() => this.ask(), KEY_PAUSE_MS);
  }

  private ask(): void {
    this.stopWaiting();
    const { wanted, region } = this;
    if (wanted === null || sameRectangle(wanted, region)) return;
    this.asked = wanted;
    const refuse = () => {
      if (this.wanted === wanted) this.wanted = null; // else moved on, or another asked for since
    };
    const detail: RegionWish = { region: wanted, refuse };
    this.dispatchEvent(new CustomEvent('evenfield-region', { detail, bubbles: true, composed: true }));
  }
}

function sameRectangle(a: FrameRectangle, b: FrameRectangle): boolean {
  return a.left === b.left && a.top === b.top && a.right === b.right && a.bottom === b.bottom;
}

function cursorOf({ across, down }: RegionHandle): string {
  if (across === null) return 'upright';
  if (down === null) return 'sideways';
  return (across === 'left') === (down === 'top') ? 'falling' : 'rising';
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-map-region': EvenfieldMapRegion;
  }
}
