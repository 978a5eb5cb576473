import { css, html, LitElement, type PropertyValues } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { FrameReport } from '../engine/read-frame.ts';
import { type LeftOverPicture, leftOverPicture } from '../plots/left-over-picture.ts';
import { type } from './paper.ts';
import { leftOverKey, leftOverWords, surfaceSentence } from './words/correct-words.ts';

/** By what surface the light is followed, why by that one, and what it leaves over. */
@customElement('evenfield-correct-surface')
export class EvenfieldCorrectSurface extends LitElement {
  static override styles = [
    type,
    css`
      figure {
        margin: 0;
      }
      canvas {
        display: block;
        width: 100%;
        max-width: 24rem;
        margin-bottom: 0.5rem;
        image-rendering: pixelated; /* cells are what was measured; nothing lies between them */
      }
      p {
        max-width: 60ch;
      }
    `,
  ];

  @query('canvas') private canvas!: HTMLCanvasElement;
  private picture: LeftOverPicture | null = null;

  @property({ attribute: false }) report!: FrameReport;

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('report')) this.picture = leftOverPicture(this.report);
  }

  override render() {
    const { chosen, surfaces } = this.report;
    const { usualEv, mostEv, reachEv } = this.picture!;
    return html`<p>${surfaceSentence(chosen.name, chosen.heldOutEv, surfaces)}</p>
      <figure>
        <canvas role="img" aria-label="What the surface leaves over, cell by cell"></canvas>
        <figcaption class="small quiet">${leftOverWords(usualEv, mostEv)} ${leftOverKey(reachEv)}</figcaption>
      </figure>`;
  }

  override updated(changed: PropertyValues<this>): void {
    if (!changed.has('report')) return;
    const { columns, rows, rgba } = this.picture!;
    this.canvas.width = columns;
    this.canvas.height = rows;
    this.canvas.getContext('2d')?.putImageData(new ImageData(rgba, columns, rows), 0, 0);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-surface': EvenfieldCorrectSurface;
  }
}
