import { proxy, type Remote, transfer, wrap } from 'comlink';
import type { Tolerance } from '../src/engine/tolerance.ts';
import type { CanvasLack } from './browser-lacks.ts';
import type { LiveFeed, ReportStep } from './live-feed.ts';

/** Pictures that are handed out when they are asked for. */
export interface AskedPictures {
  next(): Promise<ImageBitmap | null>;
}

/** What the browser itself lacks, where a feed ended for that; `null` where it did not. */
export function lackBehind(error: unknown): CanvasLack | null {
  const { name } = error as Error;
  return name === 'no-canvas' || name === 'altered' ? name : null;
}

/** A feed as the page sees it: followed in a worker of its own, which ends with it. */
export class LiveClient {
  private readonly worker = new Worker(new URL('./live.worker.ts', import.meta.url), { type: 'module' });
  private readonly feed: Remote<LiveFeed> = wrap<LiveFeed>(this.worker);

  constructor(whenDead: () => void) {
    this.worker.addEventListener('error', whenDead);
  }

  /** Resolves when the pictures end. */
  follow(pictures: ReadableStream<VideoFrame> | AskedPictures, report: ReportStep): Promise<void> {
    if (pictures instanceof ReadableStream)
      return this.feed.follow(transfer(pictures, [pictures]), proxy(report)) as Promise<void>;
    const next = async () => {
      const picture = await pictures.next();
      return picture && transfer(picture, [picture]);
    };
    return this.feed.followByAsking(proxy(next), proxy(report)) as Promise<void>;
  }

  judgeBy(tolerance: Tolerance): void {
    void this.feed.judgeBy(tolerance);
  }

  hold(): Promise<Blob | null> {
    return this.feed.hold() as Promise<Blob | null>;
  }

  dispose(): void {
    this.worker.terminate();
  }
}
