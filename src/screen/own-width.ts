import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** How wide its host is on the page, in CSS pixels, up to a largest width; 0 until it has been laid out. */
export class OwnWidth implements ReactiveController {
  px = 0;

  private readonly resizing = new ResizeObserver(() => {
    const px = Math.min(this.widest, this.host.clientWidth);
    if (px === this.px) return;
    this.px = px;
    this.host.requestUpdate();
  });

  constructor(
    private readonly host: ReactiveControllerHost & Element,
    private readonly widest: number,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    this.resizing.observe(this.host);
  }

  hostDisconnected(): void {
    this.resizing.disconnect();
  }
}
