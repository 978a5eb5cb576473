import { css, html, LitElement, type PropertyValues } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';

/**
 * A frame's own picture, dimmed, to be laid under what was read of it. What the browser cannot show stays grey.
 * The host's size is the picture's.
 */
@customElement('evenfield-frame-picture')
export class EvenfieldFramePicture extends LitElement {
  static override styles = css`
    :host {
      display: block;
      background: var(--faint-rule);
    }
    canvas {
      display: block;
      width: 100%;
      height: 100%;
      opacity: 0.5;
    }
  `;

  @query('canvas') private canvas!: HTMLCanvasElement;
  private showing = 0;

  @property({ attribute: false }) file: Blob | null = null;
  @property({ type: Number }) width = 0;
  @property({ type: Number }) height = 0;

  override render() {
    return html`<canvas aria-hidden="true"></canvas>`;
  }

  override updated(changed: PropertyValues<this>): void {
    if (changed.has('file') || changed.has('width')) void this.show();
  }

  /** Decoded and made small beside the page's own thread, at the screen's own density. */
  private async show(): Promise<void> {
    this.showing++;
    const showing = this.showing;
    const { canvas } = this;
    canvas.width = 0; // never another frame's picture
    if (this.file === null || this.width === 0) return;
    try {
      const picture = await createImageBitmap(this.file, {
        resizeWidth: Math.round(this.width * devicePixelRatio),
        resizeHeight: Math.round(this.height * devicePixelRatio),
        resizeQuality: 'medium',
      });
      if (showing === this.showing) {
        canvas.width = picture.width;
        canvas.height = picture.height;
        canvas.getContext('2d')?.drawImage(picture, 0, 0);
      }
      picture.close();
    } catch {
      // a raw file, say: it was read, but the browser has no picture of it
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-frame-picture': EvenfieldFramePicture;
  }
}
