import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import { type ResponseCurve, type ResponsePlot, responsePlot } from '../plots/response-plot.ts';
import { type } from './paper.ts';
import { channelWords, plotSummary } from './words/response-words.ts';

const HEIGHT = 300;
const WIDEST = 460;

/** A camera's response per channel over its codes, against sRGB's. */
@customElement('evenfield-response-plot')
export class EvenfieldResponsePlot extends LitElement {
  static override styles = [
    type,
    css`
      svg {
        display: block;
      }
      path,
      line {
        fill: none;
        stroke: currentColor;
      }
      .tick {
        opacity: 0.3;
      }
      .curve {
        stroke-width: 2.5;
      }
      .second {
        stroke-dasharray: 10 3;
      }
      .third {
        stroke-dasharray: 3 3;
      }
      .beyond {
        stroke-width: 1;
      }
      .srgb {
        stroke-width: 1.25;
        stroke-dasharray: 6 5;
      }
      text {
        fill: currentColor;
        font-size: 14px;
        paint-order: stroke;
        stroke: var(--ground);
        stroke-width: 4;
      }
      @media (forced-colors: active) {
        text {
          stroke: Canvas;
        }
      }
    `,
  ];

  private readonly resizing = new ResizeObserver(() => {
    this.width = Math.min(WIDEST, this.clientWidth);
  });

  @state() private width = 0;

  @property({ attribute: false }) response!: CameraResponse;

  override connectedCallback(): void {
    super.connectedCallback();
    this.resizing.observe(this);
  }

  override disconnectedCallback(): void {
    this.resizing.disconnect();
    super.disconnectedCallback();
  }

  override render() {
    if (this.width === 0) return nothing;
    const plot = responsePlot(this.response, { width: this.width, height: HEIGHT });
    return html`<svg
      role="img"
      aria-labelledby="name"
      aria-describedby="says"
      width=${plot.width}
      height=${plot.height}
      viewBox="0 0 ${plot.width} ${plot.height}"
    >
      <title id="name">The camera’s response</title>
      <desc id="says">${plotSummary(this.response)}</desc>
      ${this.ground(plot)}
      <path class="srgb" d=${plot.srgbPath} />
      ${plot.curves.map((curve, i) => this.curve(curve, i))}
      <text x=${plot.srgbNameAt[0]} y=${plot.srgbNameAt[1]} dx="-8" dy="-8" text-anchor="end">sRGB</text>
    </svg>`;
  }

  private ground({ left, right, top, foot, codeTicks, stopTicks }: ResponsePlot) {
    return svg`${stopTicks.map(
      ({ stops, at }) => svg`<line class="tick" x1=${left} x2=${right} y1=${at} y2=${at} />
        <text x=${left - 8} y=${at} dy="0.35em" text-anchor="end">${stops === 0 ? '0' : `−${-stops}`}</text>`,
    )}
    ${codeTicks.map(
      ({ code, at }) => svg`<line class="tick" x1=${at} x2=${at} y1=${top} y2=${foot} />
        <text x=${at} y=${foot + 18} text-anchor=${code === 255 ? 'end' : 'middle'}>${code}</text>`,
    )}
    <text x=${(left + right) / 2} y=${foot + 42} text-anchor="middle">Code in the file</text>
    <text transform=${`translate(14 ${(top + foot) / 2}) rotate(-90)`} text-anchor="middle">Light, stops below white</text>`;
  }

  private curve({ channels, path, beyondPath, nameAt: [x, y] }: ResponseCurve, i: number) {
    const kind = ['first', 'second', 'third'][i]!;
    return svg`<path class=${`curve ${kind}`} d=${path} />
      <path class="beyond" d=${beyondPath} />
      <text x=${x} y=${y} dx="8" dy="18">${channelWords(channels)}</text>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-response-plot': EvenfieldResponsePlot;
  }
}
