import { css, html, LitElement, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { SectionPlot } from '../plots/section-plot.ts';
import { type } from './paper.ts';
import { decimals, stops } from './words/figures.ts';

/** A cross-section of the falloff, drawn along the map's bottom or right edge. */
@customElement('evenfield-section')
export class EvenfieldSection extends LitElement {
  static override styles = [
    type,
    css`
      svg {
        display: block;
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
        font-size: 12px;
      }
    `,
  ];

  @property({ attribute: false }) plot!: SectionPlot;

  override render() {
    const { direction, length, depth, path, fallEv } = this.plot;
    const isAcross = direction === 'across';
    const name = isAcross ? 'Cross-section from left to right' : 'Cross-section from top to bottom';
    const fall = Number.isNaN(fallEv)
      ? 'nothing was measured along it'
      : `falls by ${stops(fallEv)} along it`;
    return html`<svg
      role="img"
      aria-label=${`${name} through the spot: the light ${fall}`}
      width=${isAcross ? length : depth}
      height=${isAcross ? depth : length}
    >
      ${this.plot.axis.ticks.map(({ ev, at }) => this.level('tick', at, decimals(ev, 1)))}
      ${this.plot.toleranceAt.map((at) => this.level('tolerance', at, null))}
      ${this.spotLine()}
      <path class="curve" d=${path} />
    </svg>`;
  }

  private level(name: string, at: number, label: string | null) {
    const { direction, length } = this.plot;
    const line =
      direction === 'across'
        ? svg`<line class=${name} x1="0" x2=${length} y1=${at} y2=${at} />`
        : svg`<line class=${name} x1=${at} x2=${at} y1="0" y2=${length} />`;
    if (label === null) return line;
    const text =
      direction === 'across'
        ? svg`<text x="2" y=${at} dy="-2">${label}</text>`
        : svg`<text x=${at} y=${length} dy="-3" text-anchor="middle">${label}</text>`;
    return [line, text];
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
