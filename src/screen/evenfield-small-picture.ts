import { css, html, LitElement } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { FrameLook } from '../engine/glance-at-frame.ts';

/** A frame as small as tells it from its neighbours. */
@customElement('evenfield-small-picture')
export class EvenfieldSmallPicture extends LitElement {
  static override styles = css`
    :host {
      display: block;
      width: 96px;
      min-height: 48px;
    }
    canvas {
      display: block;
      max-width: 100%;
    }
  `;

  @query('canvas') private canvas!: HTMLCanvasElement;

  @property({ attribute: false }) picture: FrameLook['picture'] | null = null;

  override render() {
    return html`<canvas aria-hidden="true" width=${this.picture?.widthPx ?? 0} height=${this.picture?.heightPx ?? 0}></canvas>`;
  }

  override updated(): void {
    if (this.picture === null) return;
    const { widthPx, heightPx, samples } = this.picture;
    const shown = new ImageData(new Uint8ClampedArray(samples), widthPx, heightPx);
    this.canvas.getContext('2d')?.putImageData(shown, 0, 0);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-small-picture': EvenfieldSmallPicture;
  }
}
