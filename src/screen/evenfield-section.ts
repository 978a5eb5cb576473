import { css, html, LitElement, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { SectionPlot } from '../plots/section-plot.ts';
import { type } from './paper.ts';
import { decimals, stops } from './words/figures.ts';

/**
 * A cross-section of the falloff, drawn along the frame's bottom or right edge. Its figures stand at the end, beside
 * or above the lines, where no curve runs.
 */
@customElement('evenfield-section')
export class EvenfieldSection extends LitElement {
  static override styles = [
    type,
    css`
      svg {
        display: block;
        overflow: visible; /* for the figures */
      }
      .curve {
        fill: none;
        stroke: var(--ink);
        stroke-width: 2;
      }
      .tick {
        stroke: var(--faint-rule);
      }
      .tolerance {
        stroke: var(--ink);
        stroke-width: 2;
        stroke-dasharray: 1 3;
      }
      .spot {
        stroke: var(--rule);
      }
      text {
        fill: var(--quiet-ink);
      }
    `,
  ];

  @property({ attribute: false }) plot!: SectionPlot;
  /** Where the part that was read begins along the edge, and how long the whole frame's edge is. */
  @property({ type: Number }) start = 0;
  @property({ type: Number }) whole = 0;

  override render() {
    const { direction, depth, path, fallEv, fontSize } = this.plot;
    const isAcross = direction === 'across';
    const name = isAcross ? 'Cross-section from left to right' : 'Cross-section from top to bottom';
    const fall = Number.isNaN(fallEv)
      ? 'nothing was measured along it'
      : `falls by ${stops(fallEv)} along it`;
    return html`<svg
      role="img"
      font-size=${fontSize}
      aria-label=${`${name} through the spot: the light ${fall}`}
      width=${isAcross ? this.whole : depth}
      height=${isAcross ? depth : this.whole}
    >
      ${this.plot.axis.ticks.map(({ ev, at }) => [this.level('tick', at), this.figure(at, ev)])}
      ${this.plot.toleranceAt.map((at) => this.level('tolerance', at))}
      <g transform=${isAcross ? `translate(${this.start} 0)` : `translate(0 ${this.start})`}>
        ${this.spotLine()}
        <path class="curve" d=${path} />
      </g>
    </svg>`;
  }

  private level(name: string, at: number) {
    return this.plot.direction === 'across'
      ? svg`<line class=${name} x1="0" x2=${this.whole} y1=${at} y2=${at} />`
      : svg`<line class=${name} x1=${at} x2=${at} y1="0" y2=${this.whole} />`;
  }

  private figure(at: number, ev: number) {
    const words = ev === 0 ? '0' : decimals(ev, 1);
    return this.plot.direction === 'across'
      ? svg`<text x=${this.whole + 6} y=${at} dy="0.36em">${ev === 0 ? '0 stop' : words}</text>`
      : svg`<text x=${at} y="-5" text-anchor="middle">${words}</text>`;
  }

  private spotLine() {
    const { direction, depth, spotAt } = this.plot;
    return direction === 'across'
      ? svg`<line class="spot" x1=${spotAt} x2=${spotAt} y1="0" y2=${depth} />`
      : svg`<line class="spot" x1="0" x2=${depth} y1=${spotAt} y2=${spotAt} />`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-section': EvenfieldSection;
  }
}
