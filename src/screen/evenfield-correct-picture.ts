import { css, html, LitElement, nothing, type PropertyValues, svg } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Stroke } from '../engine/correct/matte/brush.ts';
import type { PreviewPicture } from '../engine/preview-correction.ts';
import type { FramePoint } from '../engine/reading.ts';
import { cellsPath } from '../plots/cells-path.ts';
import { type } from './paper.ts';

/** How a brush paints: what it makes of the background, and how wide it is as a share of the frame's width. */
export type BrushChoice = Pick<Stroke, 'makes' | 'radius'>;

const STEPS: Record<string, readonly [right: number, down: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** Steps over the longer side of the picture, and how much farther Shift takes the spot. */
const STEPS_ACROSS = 96;
const LONG_STRIDE = 8;

/**
 * One of the two pictures, with hatching over what is clipped and over what is left as shot, and the spot.
 * @event evenfield-look-at - {FramePoint} the spot that is pointed at, or stepped to by the arrow keys
 * @event evenfield-stroke - {Stroke} what was painted
 */
@customElement('evenfield-correct-picture')
export class EvenfieldCorrectPicture extends LitElement {
  static override styles = [
    type,
    css`
      .pointing {
        position: relative;
        cursor: crosshair;
      }
      .painting {
        touch-action: none;
      }
      canvas {
        display: block;
        width: 100%;
      }
      svg {
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
      }
      .line {
        stroke: #191919; /* over the picture, which is as bright by night */
        stroke-width: 1;
        vector-effect: non-scaling-stroke;
      }
      .casing {
        stroke: #e2e2e2;
        stroke-width: 3;
        opacity: 0.6;
        vector-effect: non-scaling-stroke;
      }
      .painted {
        fill: none;
        stroke: #777777;
        stroke-opacity: 0.6;
        stroke-linecap: round;
        stroke-linejoin: round;
      }
    `,
  ];

  @query('canvas') private canvas!: HTMLCanvasElement;
  private clippedPath = '';
  private leftPath = '';
  @state() private painted: readonly FramePoint[] | null = null;

  @property({ attribute: false }) picture!: PreviewPicture;
  @property({ type: Number }) widthPx = 0;
  @property({ type: Number }) heightPx = 0;
  @property() name = '';
  @property({ attribute: false }) spot: FramePoint = { x: 0.5, y: 0.5 };
  /** As the preview tells it: 1 clipped in the file, 2 beyond white by the gains. */
  @property({ attribute: false }) clipped!: Uint8Array;
  /** Whether what the gains take beyond white is hatched too. */
  @property({ type: Boolean }) isCorrected = false;
  /** 1 background, 0 subject, which is hatched; `null` where nothing is left as shot. */
  @property({ attribute: false }) backgroundAt: Uint8Array | null = null;
  /** `null` where there is nothing to paint. */
  @property({ attribute: false }) brush: BrushChoice | null = null;

  /** Not at every step of the spot: a path goes through all pixels. */
  override willUpdate(changed: PropertyValues<this>): void {
    const { widthPx, heightPx, backgroundAt, clipped, isCorrected } = this;
    const size = { width: widthPx, height: heightPx };
    const pixels = { columns: widthPx, rows: heightPx };
    if (changed.has('clipped'))
      this.clippedPath = cellsPath(
        pixels,
        (at) => clipped[at] === 1 || (isCorrected && clipped[at] === 2),
        size,
      );
    if (changed.has('backgroundAt'))
      this.leftPath = backgroundAt === null ? '' : cellsPath(pixels, (at) => backgroundAt[at] === 0, size);
  }

  override render() {
    const { widthPx, heightPx, clippedPath: clipped, leftPath: left } = this;
    return html`<div
      class=${this.brush === null ? 'pointing' : 'pointing painting'}
      tabindex="0"
      role="application"
      aria-label=${`${this.name}: the arrow keys move the spot${this.brush === null ? '' : ', Enter paints there'}`}
      @pointerdown=${this.press}
      @pointermove=${this.move}
      @pointerup=${this.lift}
      @pointercancel=${this.lift}
      @keydown=${this.step}
    >
      <canvas aria-hidden="true"></canvas>
      <svg role="img" aria-label=${this.name} viewBox="0 0 ${widthPx} ${heightPx}" preserveAspectRatio="none">
        <defs>
          ${hatching('clipped', 'M-2,-2L10,10M-2,6L2,10M6,-2L10,2')} ${hatching('left', 'M-2,10L10,-2M-2,2L2,-2M6,10L10,6')}
        </defs>
        ${left === '' ? nothing : svg`<path d=${left} fill="url(#left)" shape-rendering="crispEdges" />`}
        ${clipped === '' ? nothing : svg`<path d=${clipped} fill="url(#clipped)" shape-rendering="crispEdges" />`}
        ${this.cross()} ${this.painting()}
      </svg>
    </div>`;
  }

  override updated(changed: PropertyValues<this>): void {
    if (!changed.has('picture')) return;
    const { canvas, widthPx, heightPx } = this;
    canvas.width = widthPx;
    canvas.height = heightPx;
    canvas.getContext('2d')?.putImageData(new ImageData(this.picture.rgba, widthPx, heightPx), 0, 0);
  }

  private cross() {
    const [x, y] = [this.spot.x * this.widthPx, this.spot.y * this.heightPx];
    const path = `M0,${y}H${this.widthPx}M${x},0V${this.heightPx}`;
    return svg`<path class="casing" d=${path} fill="none" /><path class="line" d=${path} fill="none" />`;
  }

  private painting() {
    if (this.painted === null || this.brush === null) return nothing;
    const at = this.painted.map(({ x, y }) => `${x * this.widthPx},${y * this.heightPx}`);
    const path = `M${at.join('L')}${at.length === 1 ? 'h0' : ''}`;
    return svg`<path class="painted" d=${path} stroke-width=${2 * this.brush.radius * this.widthPx} />`;
  }

  private press(event: PointerEvent): void {
    const place = this.placeOf(event);
    this.look(place);
    if (this.brush === null || event.button !== 0) return;
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    this.painted = [place];
  }

  private move(event: PointerEvent): void {
    const place = this.placeOf(event);
    this.look(place);
    if (this.painted !== null) this.painted = [...this.painted, place];
  }

  private lift(event: PointerEvent): void {
    if (this.painted !== null && event.type === 'pointerup') this.paint(this.painted);
    this.painted = null;
  }

  private step(event: KeyboardEvent): void {
    if (this.brush !== null && (event.key === 'Enter' || event.key === ' ')) {
      event.preventDefault();
      this.paint([this.spot]);
      return;
    }
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const stride = (event.shiftKey ? LONG_STRIDE : 1) / STEPS_ACROSS;
    const longest = Math.max(this.widthPx, this.heightPx);
    const x = this.spot.x + (step[0] * stride * longest) / this.widthPx;
    const y = this.spot.y + (step[1] * stride * longest) / this.heightPx;
    this.look({ x: inside(x), y: inside(y) });
  }

  private placeOf(event: PointerEvent): FramePoint {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    return {
      x: inside((event.clientX - box.left) / box.width),
      y: inside((event.clientY - box.top) / box.height),
    };
  }

  private paint(points: readonly FramePoint[]): void {
    const stroke: Stroke = { ...this.brush!, points };
    this.dispatchEvent(
      new CustomEvent('evenfield-stroke', { detail: stroke, bubbles: true, composed: true }),
    );
  }

  private look(place: FramePoint): void {
    this.dispatchEvent(new CustomEvent('evenfield-look-at', { detail: place }));
  }
}

/** A dark line on a lighter one, so that it shows on any picture; it goes on over the corners of its tile. */
function hatching(id: string, path: string) {
  return svg`<pattern id=${id} width="8" height="8" patternUnits="userSpaceOnUse">
    <path d=${path} stroke="#e2e2e2" stroke-width="2.5" /><path d=${path} stroke="#191919" stroke-width="1" />
  </pattern>`;
}

function inside(share: number): number {
  return Math.min(Math.max(share, 0), 1);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-picture': EvenfieldCorrectPicture;
  }
}
