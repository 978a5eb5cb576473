import { css, html, LitElement, type PropertyValues } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { FirstLook } from '../engine/first-look.ts';
import { LIVE_UNITS_A_CELL, type LiveMap, liveMap } from '../plots/live-map.ts';
import { type } from './paper.ts';
import { lookWords } from './words/look-words.ts';

/** The falloff of a frame under way by a decode in small, marked as coarse, until the measured map takes its place. */
@customElement('evenfield-first-look')
export class EvenfieldFirstLook extends LitElement {
  static override styles = [
    type,
    css`
      figure {
        display: grid;
        gap: 0.5rem;
        margin: 0 0 1rem;
      }
      .map {
        position: relative;
        width: min(100%, 24rem);
        aspect-ratio: var(--ratio);
      }
      :host([small]) .map {
        width: 8rem;
      }
      canvas,
      svg {
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
      }
      path {
        fill: none;
        stroke: #191919;
        stroke-dasharray: 4 3;
        vector-effect: non-scaling-stroke;
      }
      figcaption {
        max-width: 46rem;
      }
    `,
  ];

  @property({ attribute: false }) look!: FirstLook;
  @query('canvas') private canvas!: HTMLCanvasElement;

  private map!: LiveMap;

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('look')) return;
    const { columns, rows } = this.look;
    this.map = liveMap(columns, rows, this.look, null);
    this.style.setProperty('--ratio', `${columns} / ${rows}`);
  }

  override render() {
    const { columns, rows } = this.look;
    const box = `0 0 ${columns * LIVE_UNITS_A_CELL} ${rows * LIVE_UNITS_A_CELL}`;
    return html`<figure>
      <figcaption>${lookWords(this.look, this.map.stepEv)}</figcaption>
      <div class="map">
        <canvas width=${columns} height=${rows}></canvas>
        <svg viewBox=${box} preserveAspectRatio="none" aria-hidden="true"><path d=${this.map.contourPath}></path></svg>
      </div>
    </figure>`;
  }

  override updated(): void {
    const { columns, rows, rgba } = this.map.picture;
    this.canvas.getContext('2d')?.putImageData(new ImageData(rgba, columns, rows), 0, 0);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-first-look': EvenfieldFirstLook;
  }
}
