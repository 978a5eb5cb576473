import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import {
  type KeyEntry,
  type ResponseCurve,
  type ResponsePlot,
  responsePlot,
} from '../plots/response-plot.ts';
import { OwnWidth } from './own-width.ts';
import { type } from './paper.ts';
import { channelWords, plotSummary } from './words/response-words.ts';

const HEIGHT = 300;
const WIDEST = 460;
/** How the lines differ, since no colour tells them apart. */
const KINDS = ['first', 'second', 'third'];

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
        stroke-dasharray: 12 4;
      }
      .third {
        stroke-dasharray: 2 4;
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

  private readonly width = new OwnWidth(this, WIDEST);

  @property({ attribute: false }) response!: CameraResponse;

  override render() {
    if (this.width.px === 0) return nothing;
    const plot = responsePlot(this.response, { width: this.width.px, height: HEIGHT });
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
      ${plot.key.map((entry, i) => this.entry(entry, plot.curves[i], i))}
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

  private curve({ path, beyondPath }: ResponseCurve, i: number) {
    return svg`<path class=${`curve ${KINDS[i]}`} d=${path} />
      <path class="beyond" d=${beyondPath} />`;
  }

  /** The last is sRGB's, which is no curve of the camera. */
  private entry({ linePath, nameAt: [x, y] }: KeyEntry, curve: ResponseCurve | undefined, i: number) {
    return svg`<path class=${curve ? `curve ${KINDS[i]}` : 'srgb'} d=${linePath} />
      <text x=${x} y=${y} dy="0.35em">${curve ? channelWords(curve.channels) : 'sRGB'}</text>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-response-plot': EvenfieldResponsePlot;
  }
}
