import { type ProxyMarked, type Remote, releaseProxy } from 'comlink';
import { LiveMeter } from '../src/engine/live/live-meter.ts';
import type { LiveReading } from '../src/engine/live/live-reading.ts';
import type { Tolerance } from '../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../src/engine/tolerances.ts';
import { canvasLack } from './browser-lacks.ts';

/** What one picture of a feed showed, and how fast pictures are read. */
export interface LiveStep {
  readonly reading: LiveReading;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly picturesPerSecond: number;
  /** Share of the time that the worker was at work, 0 to 1. */
  readonly busyShare: number;
}

export type NextPicture = () => Promise<ImageBitmap | null>;

export type ReportStep = (step: LiveStep) => void;

/** The worker rests for as long as keeps it at work for this share of the time at most. */
const MOST_BUSY = 0.55;
/** A picture that came late is no rest lost: the next may come as much sooner, within this. */
const CREDIT_MS = 60;
/** Speed and share are told over so long. */
const TOLD_OVER_MS = 2000;

/** A feed followed in a worker: one picture at a time, nothing of it kept but one that is asked for. */
export class LiveFeed {
  private buffer = new Uint8ClampedArray(0);
  private canvas: OffscreenCanvas | null = null;
  private tolerance: Tolerance = DEFAULT_TOLERANCE;
  private wanted: ((picture: Blob | null) => void) | null = null;

  /** Follows pictures until they end. */
  async follow(
    pictures: ReadableStream<VideoFrame>,
    report: Remote<ReportStep & ProxyMarked>,
  ): Promise<void> {
    const reader = pictures.getReader();
    const next = async () => (await reader.read()).value ?? null;
    await this.followEach(next, false, report).finally(() => reader.releaseLock());
  }

  /** Follows pictures that are asked for one by one, until `null` is answered. */
  async followByAsking(
    next: Remote<NextPicture & ProxyMarked>,
    report: Remote<ReportStep & ProxyMarked>,
  ): Promise<void> {
    refuseLackingCanvas();
    const asked = () => next() as Promise<ImageBitmap | null>;
    await this.followEach(asked, true, report).finally(() => next[releaseProxy]());
  }

  private async followEach(
    next: () => Promise<VideoFrame | ImageBitmap | null>,
    isAsked: boolean,
    report: Remote<ReportStep & ProxyMarked>,
  ): Promise<void> {
    const meter = new LiveMeter();
    const pace: { atMs: number; costMs: number }[] = [];
    let restUntilMs = 0;
    let isTaken = true;
    try {
      for (;;) {
        const restMs = isAsked && this.wanted === null ? restUntilMs - performance.now() : 0;
        if (restMs > 0) await new Promise((rested) => setTimeout(rested, restMs));
        const frame = await next();
        if (frame === null) return;
        const atMs = performance.now();
        if ((atMs < restUntilMs && this.wanted === null) || !isTaken) {
          frame.close();
          continue;
        }
        const picture = await this.pixels(frame);
        const reading = meter.add(picture, atMs / 1000, this.tolerance);
        await this.handOver(picture);
        const costMs = performance.now() - atMs;
        restUntilMs = Math.max(restUntilMs, atMs - CREDIT_MS) + costMs / MOST_BUSY;
        pace.push({ atMs, costMs });
        while (pace[0]!.atMs < atMs - TOLD_OVER_MS) pace.shift();
        const overMs = Math.max(1, performance.now() - pace[0]!.atMs);
        const { widthPx, heightPx } = picture;
        const step: LiveStep = {
          ...{ reading, widthPx, heightPx },
          picturesPerSecond: (1000 * Math.max(0, pace.length - 1)) / overMs,
          busyShare: pace.reduce((sum, each) => sum + each.costMs, 0) / overMs,
        };
        isTaken = false; // a page that is slower than this gets fewer pictures, and none of them late
        report(step)
          .catch(() => {}) // one that has gone need not hear it
          .finally(() => {
            isTaken = true;
          });
      }
    } finally {
      this.wanted?.(null);
      this.wanted = null;
      report[releaseProxy]();
    }
  }

  /** Tells that the worker is not computing; where it hangs, nothing is told any more. */
  answers(): true {
    return true;
  }

  judgeBy(tolerance: Tolerance): void {
    this.tolerance = tolerance;
  }

  /**
   * The next picture as a JPEG of the best quality; `null` where none comes any more. As a JPEG it is read with the
   * tone curve counted that nobody states, as a feed's has to be.
   */
  hold(): Promise<Blob | null> {
    return new Promise((resolve) => {
      this.wanted?.(null);
      this.wanted = resolve;
    });
  }

  /** The picture's pixels, in memory that the next picture takes again. */
  private async pixels(frame: VideoFrame | ImageBitmap) {
    try {
      if (frame instanceof ImageBitmap) return this.drawn(frame);
      const { width, height } = frame.visibleRect ?? { width: frame.codedWidth, height: frame.codedHeight };
      if (this.buffer.length !== width * height * 4) this.buffer = new Uint8ClampedArray(width * height * 4);
      await frame.copyTo(this.buffer, { format: 'RGBA' });
      return { widthPx: width, heightPx: height, samples: this.buffer };
    } finally {
      frame.close();
    }
  }

  private drawn(picture: ImageBitmap) {
    const { width, height } = picture;
    if (this.canvas?.width !== width || this.canvas.height !== height)
      this.canvas = new OffscreenCanvas(width, height);
    const context = this.canvas.getContext('2d', { alpha: false, willReadFrequently: true })!;
    context.drawImage(picture, 0, 0);
    this.buffer = context.getImageData(0, 0, width, height).data;
    return { widthPx: width, heightPx: height, samples: this.buffer };
  }

  private async handOver({ widthPx, heightPx }: { widthPx: number; heightPx: number }): Promise<void> {
    if (this.wanted === null) return;
    refuseLackingCanvas();
    const give = this.wanted;
    this.wanted = null;
    const canvas = new OffscreenCanvas(widthPx, heightPx);
    const context = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
    context?.putImageData(new ImageData(this.buffer, widthPx, heightPx), 0, 0);
    give(context === null ? null : await canvas.convertToBlob({ type: 'image/jpeg', quality: 1 }));
  }
}

/** By a name: of what a worker throws, little more crosses. */
function refuseLackingCanvas(): void {
  const name = canvasLack();
  if (name !== null) throw Object.assign(new Error('there is no canvas to be relied on'), { name });
}
