import { proxy, type Remote, transfer, wrap } from 'comlink';
import type { Tolerance } from '../src/engine/tolerance.ts';
import type { CanvasLack } from './browser-lacks.ts';
import type { EngineWorker } from './engine-client.ts';
import { HangWatch } from './hang-watch.ts';
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

/** Why a feed is followed no more, where its worker is the reason. */
export type LiveLoss = 'died' | 'hung';

/** A picture is computed for a tenth of a second, and the worker's script may be slow to come. Own choice. */
export const LONGEST_PICTURE_MS = 30_000;

/**
 * A feed as the page sees it: followed in a worker of its own, which ends with it. While it is followed the worker is
 * watched: `whenLost` tells that it died, or that it hung and was ended.
 */
export class LiveClient {
  private readonly worker: EngineWorker;
  private readonly feed: Remote<LiveFeed>;
  private readonly watch: HangWatch;
  private isEnded = false;

  constructor(whenLost: (loss: LiveLoss) => void, startWorker: () => EngineWorker = startLiveWorker) {
    this.worker = startWorker();
    this.feed = wrap<LiveFeed>(this.worker);
    this.watch = new HangWatch({
      longestSilenceMs: LONGEST_PICTURE_MS,
      // a camera may pause for as long as it likes: a worker that waits for its pictures is well
      ask: () => this.feed.answers().then(() => this.watch.gotFurther()),
      hung: () => lose('hung'),
    });
    const lose = (loss: LiveLoss) => {
      if (this.isEnded) return;
      this.dispose();
      whenLost(loss);
    };
    this.worker.addEventListener('error', () => lose('died'));
    this.worker.addEventListener('messageerror', () => lose('died'));
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
    this.isEnded = true;
    this.watch.stop();
    this.worker.terminate();
  }
}

function startLiveWorker(): EngineWorker {
  return new Worker(new URL('./live.worker.ts', import.meta.url), { type: 'module' });
}
