import { css, html, LitElement, type PropertyValues, svg } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { MapPlot } from '../plots/map-plot.ts';
import type { PlotPoint } from '../plots/plot-line.ts';
import { type } from './paper.ts';

/**
 * One map: its picture under its contours. The host's size is the drawing's.
 */
@customElement('evenfield-map-drawing')
export class EvenfieldMapDrawing extends LitElement {
  static override styles = [
    type,
    css`
      :host {
        position: relative;
      }
      canvas,
      svg {
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
      }
      svg {
        overflow: hidden;
      }
      path,
      line {
        fill: none;
        stroke: #191919; /* the picture is as bright by night: its lines stay dark */
      }
      .hatched {
        fill: url(#hatching);
        stroke: none;
      }
      .lower {
        fill: url(#lower-hatching);
        stroke: none;
      }
      .tolerance {
        stroke-width: 3;
      }
      .crop {
        stroke-dasharray: 7 5;
        stroke-width: 1.5;
      }
      .gradient {
        stroke-dasharray: 1 4;
        stroke-linecap: round;
        stroke-width: 2;
      }
      .head {
        stroke-width: 2;
      }
      circle {
        fill: none;
        stroke: #191919;
      }
      .spot {
        stroke-width: 1.5;
      }
      .marked {
        stroke-width: 2.5;
      }
      text {
        fill: #191919;
        text-anchor: middle;
      }
      .bold {
        font-weight: 700;
      }
    `,
  ];

  @query('canvas') private canvas!: HTMLCanvasElement;

  @property({ attribute: false }) plot!: MapPlot;
  @property({ type: Number }) width = 0;
  @property({ type: Number }) height = 0;
  @property({ type: Number }) fontSize = 0;
  @property() name = '';
  @property() says = '';
  /** The spot that is read out, and one that a finding speaks of. */
  @property({ attribute: false }) spot: PlotPoint | null = null;
  @property({ attribute: false }) marked: PlotPoint | null = null;

  override render() {
    const { contours, cropPath, gradientPath, gradientHeadPath, clearPath } = this.plot;
    return html`<canvas aria-hidden="true"></canvas>
      <svg role="img" aria-labelledby="name" aria-describedby="says" viewBox="0 0 ${this.width} ${this.height}" font-size=${this.fontSize}>
        <title id="name">${this.name}</title>
        <desc id="says">${this.says}</desc>
        <defs>
          <pattern id="hatching" width="8" height="8" patternUnits="userSpaceOnUse">
            <path d="M0,8L8,0" />
          </pattern>
          <pattern id="lower-hatching" width="10" height="10" patternUnits="userSpaceOnUse">
            <path d="M0,0L10,10" stroke-width="0.5" />
          </pattern>
          <clipPath id="clear"><path d=${clearPath} clip-rule="evenodd" /></clipPath>
        </defs>
        <path class="lower" d=${this.plot.lowerPath ?? ''} clip-path="url(#clear)" />
        <path class="hatched" d=${this.plot.hatchedPath} fill="url(#hatching)" clip-path="url(#clear)" />
        ${contours.lines.map((line) => svg`<path class=${line.isTolerance ? 'tolerance' : 'contour'} d=${line.path} />`)}
        ${contours.labels.map(
          ({ x, y, angleDeg, text, isTolerance }) =>
            svg`<text class=${isTolerance ? 'bold' : ''} transform=${`translate(${x} ${y}) rotate(${angleDeg})`} dy="0.36em">${text}</text>`,
        )}
        <g clip-path="url(#clear)">
          <path class="crop" d=${cropPath} />
          <path class="gradient" d=${gradientPath} />
          <path class="head" d=${gradientHeadPath} />
          ${this.cross(this.plot.hottest, 7)} ${this.cross(this.spot, this.width + this.height)}
        </g>
        ${this.ring('spot', this.spot, 5)} ${this.ring('marked', this.marked, 22)}
      </svg>`;
  }

  override updated(changed: PropertyValues<this>): void {
    if (!changed.has('plot')) return;
    const { columns, rows, rgba } = this.plot.picture;
    this.canvas.width = columns;
    this.canvas.height = rows;
    this.canvas.getContext('2d')?.putImageData(new ImageData(rgba, columns, rows), 0, 0);
  }

  private cross(at: PlotPoint | null, arm: number) {
    if (at === null) return '';
    return svg`<path d=${`M${at[0] - arm},${at[1]}h${2 * arm}M${at[0]},${at[1] - arm}v${2 * arm}`} stroke-width="1" opacity=${arm > 50 ? 0.45 : 1} />`;
  }

  private ring(name: string, at: PlotPoint | null, radius: number) {
    return at === null ? '' : svg`<circle class=${name} cx=${at[0]} cy=${at[1]} r=${radius} />`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-map-drawing': EvenfieldMapDrawing;
  }
}
