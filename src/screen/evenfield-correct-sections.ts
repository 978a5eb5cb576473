import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { CorrectionPreview } from '../engine/preview-correction.ts';
import type { FramePoint } from '../engine/reading.ts';
import { type OverlaidSection, overlaidSections } from '../plots/overlaid-sections.ts';
import { type } from './paper.ts';
import { decimals } from './words/figures.ts';

/** Height of a plot, and room for its figures at the left, in text sizes. */
const HEIGHT = 9;
const FIGURES = 3;
/** From this width in text sizes on both plots stand beside each other. */
const ROOM_FOR_TWO = 44;
const GAP = 2.5;

/** The sections through the spot as shot (dotted) and corrected (solid), both to one scale of stops. */
@customElement('evenfield-correct-sections')
export class EvenfieldCorrectSections extends LitElement {
  static override styles = [
    type,
    css`
      .plots {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem 2.5rem;
      }
      figure {
        margin: 0;
      }
      svg {
        margin: 0.25rem 0 0.75rem;
        display: block;
        overflow: visible;
      }
      path {
        fill: none;
        stroke: var(--ink);
        stroke-width: 1.5;
      }
      .before {
        stroke-dasharray: 1.5 2.5;
      }
      .after {
        stroke-width: 2.25;
      }
      .tick {
        stroke: var(--faint-rule);
      }
      .spot {
        stroke: var(--rule);
      }
      text {
        fill: var(--quiet-ink);
      }
    `,
  ];

  private readonly resizing = new ResizeObserver(() => this.layOut());
  @state() private width = 0;
  @state() private textPx = 16;

  @property({ attribute: false }) preview!: CorrectionPreview;
  @property({ attribute: false }) spot: FramePoint = { x: 0.5, y: 0.5 };

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
    const { textPx } = this;
    const isWide = this.width >= ROOM_FOR_TWO * textPx;
    const whole = isWide ? (this.width - GAP * textPx) / 2 : this.width;
    const size = {
      width: Math.floor(whole - FIGURES * textPx),
      height: HEIGHT * textPx,
      fontSize: 0.875 * textPx,
    };
    const { across, down, ticks } = overlaidSections(this.preview, this.spot, size);
    const plot = (name: string, section: OverlaidSection) => html`<figure>
      <figcaption class="small quiet">${name}</figcaption>
      <svg role="img" aria-label=${`${name}, as shot and corrected`} width=${size.width + FIGURES * textPx} height=${size.height} font-size=${size.fontSize}>
        ${ticks.map(
          ({ ev, at }) =>
            svg`<line class="tick" x1=${FIGURES * textPx} x2=${size.width + FIGURES * textPx} y1=${at} y2=${at} /><text x=${FIGURES * textPx - 6} y=${at} dy="0.36em" text-anchor="end">${decimals(ev, 1)}</text>`,
        )}
        <g transform=${`translate(${FIGURES * textPx} 0)`}>
          <line class="spot" x1=${section.spotAt} x2=${section.spotAt} y1="0" y2=${size.height} />
          <path class="before" d=${section.before} />
          <path class="after" d=${section.after} />
        </g>
      </svg>
    </figure>`;
    return html`<div class="plots">
        ${plot('Across, through the spot', across)} ${plot('Down, through the spot', down)}
      </div>
      <p class="small quiet">
        Dotted: as shot; solid: as corrected; in stops against white. What is far darker than the background runs
        along the lower edge.
      </p>`;
  }

  private layOut(): void {
    this.width = this.clientWidth;
    this.textPx = Number.parseFloat(getComputedStyle(this).fontSize);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-sections': EvenfieldCorrectSections;
  }
}
