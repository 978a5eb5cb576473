import { css, html, LitElement, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { arrowHead } from '../plots/arrow-head.ts';
import { castPlane, WORD_DISTANCE } from '../plots/cast-plane.ts';
import { whiteLoci } from '../plots/white-loci.ts';
import { figureList } from './figure-list.styles.ts';
import { ownTask } from './in-tasks.ts';
import { type } from './paper.ts';
import { castFigures, castSummary } from './words/cast-words.ts';

/** Drawing units; at 14 of them the words are no smaller than 12 px on the narrowest screen. */
const SIZE = 270;
const LOCI = whiteLoci();
/** Round the square, for the words. */
const ROOM = 2 * WORD_DISTANCE;

/** The cast as an arrow in a plane of Δu′ and Δv′ at true scale, and as figures. */
@customElement('evenfield-cast')
export class EvenfieldCast extends LitElement {
  static override styles = [
    type,
    figureList,
    css`
      svg {
        display: block;
        width: 100%;
        max-width: 24rem;
        height: auto;
      }
      path,
      circle,
      rect {
        fill: none;
        stroke: var(--ink);
      }
      rect {
        stroke: var(--rule);
      }
      .locus {
        stroke: var(--rule);
      }
      .daylight {
        stroke-dasharray: 5 4;
      }
      .cloud {
        stroke: var(--rule);
        stroke-width: 2;
        stroke-linecap: round;
      }
      .tolerance {
        stroke-width: 2;
      }
      .cast {
        stroke-width: 3;
      }
      text {
        fill: var(--ink);
        font-size: 14px;
        text-anchor: middle;
      }
      dl {
        margin-top: 0.5rem;
      }
    `,
  ];

  @property({ attribute: false }) reading!: Reading;
  @property({ attribute: false }) tolerance!: Tolerance;

  /** Drawn in a task of its own, so that the map before it does not keep the page from answering. */
  protected override async scheduleUpdate(): Promise<void> {
    await ownTask();
    await super.scheduleUpdate();
  }

  override render() {
    const plane = castPlane(this.reading, this.tolerance, LOCI, SIZE);
    const { white, cast } = plane;
    return html`<h2>Cast</h2>
      <svg role="img" aria-labelledby="name" aria-describedby="says" viewBox="${-ROOM} ${-ROOM} ${SIZE + 2 * ROOM} ${SIZE + 2 * ROOM}">
        <title id="name">Cast in the u′v′ plane</title>
        <desc id="says">${castSummary(this.reading, this.tolerance)}</desc>
        <clipPath id="square"><rect width=${SIZE} height=${SIZE} /></clipPath>
        <rect width=${SIZE} height=${SIZE} />
        <g clip-path="url(#square)">
        <path class="locus" d=${plane.planckianPath} />
        <path class="locus daylight" d=${plane.daylightPath} />
        <path class="cloud" d=${plane.cloudPath} />
        <circle class="tolerance" cx=${white[0]} cy=${white[1]} r=${plane.toleranceRadius} />
        <circle cx=${cast[0]} cy=${cast[1]} r=${plane.castPlusMinusRadius} />
        <path class="cast" d=${`M${white[0]},${white[1]}L${cast[0]},${cast[1]}${arrowHead(white, cast, 10)}`} />
        </g>
        ${plane.words.map(({ text, at, angleDeg }) => svg`<text transform=${`translate(${at[0]} ${at[1]}) rotate(${angleDeg})`} dy="0.35em">${text}</text>`)}
      </svg>
      <p class="small quiet">
        Δu′ to the right, Δv′ up, at one scale; the circle is your limit, ${this.tolerance.castDeltaUv} Δu′v′; dots are
        the cells. Solid line: black bodies; broken line: daylight. Δu′v′ is a distance in this plane (CIE 1976), Duv how far
        to the greener or more magenta side of the solid line (CIE 1960), ΔE00 the CIEDE2000 colour difference.
      </p>
      <dl>
        ${castFigures(this.reading).map(([name, figure]) => html`<div class="figure"><dt>${name}</dt><dd>${figure}</dd></div>`)}
      </dl>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-cast': EvenfieldCast;
  }
}
