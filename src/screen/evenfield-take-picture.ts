import { css, html, LitElement, type PropertyValues } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { takePicture } from '../plots/take-picture.ts';
import type { HeldTake } from '../takes/take.ts';

/** A take in small: its region's cells, as light as they were shot. */
@customElement('evenfield-take-picture')
export class EvenfieldTakePicture extends LitElement {
  static override styles = css`
    canvas {
      display: block;
      width: 100%;
    }
  `;

  @query('canvas') private canvas!: HTMLCanvasElement;

  @property({
    attribute: false,
    // judged anew, or with its report on the shelf, a take looks as it did
    hasChanged: (now: HeldTake, before: HeldTake | undefined) =>
      now.id !== before?.id || now.region !== before.region || now.summary.readBy !== before.summary.readBy,
  })
  take!: HeldTake;

  override render() {
    return html`<canvas aria-hidden="true"></canvas>`;
  }

  override updated(_changed: PropertyValues<this>): void {
    const { reading, summary } = this.take;
    const { columns, rows, rgba } = takePicture(reading, summary.level.brightestEv);
    this.canvas.width = columns;
    this.canvas.height = rows;
    this.canvas.getContext('2d')?.putImageData(new ImageData(rgba, columns, rows), 0, 0);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-take-picture': EvenfieldTakePicture;
  }
}
