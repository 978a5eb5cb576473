import type { FirstLook } from '../engine/first-look.ts';
import type { ReadPhase } from '../engine/read-frame.ts';
import { type NamedBlob, type OneSource, openSource, sourceName } from '../sources/open-source.ts';
import { asReadFailure, type ReadFailure } from '../sources/read-failure.ts';
import type { Progress, SessionListener } from './bench-wishes.ts';

/** How a read tells how far it is, and hears that it is to stop. */
export interface ReadRun {
  readonly onProgress: (phase: ReadPhase, fraction: number, look?: FirstLook) => void;
  readonly signal: AbortSignal;
}

/** What is done with the files of one read, once they can be read. */
export type ReadWork<T> = (frames: readonly NamedBlob[], run: ReadRun) => Promise<T>;

/** Reads one after another, in the order asked for, with how far the present one is and what went wrong last. */
export class ReadQueue {
  /** The read under way; `null` where there is none. */
  progress: (Progress & { readonly fileName: string; readonly look: FirstLook | null }) | null = null;
  failure: ReadFailure | null = null;

  private last: Promise<unknown> = Promise.resolve();
  private readonly underWay = new Set<AbortController>();

  constructor(private readonly listener: SessionListener) {}

  /**
   * Does a read when its turn has come. `begin` is asked only then; what it throws is a wish that can't be met, and
   * no failure of a file. Where the engine was lost over it, it can be tried again from the failure; `triedAgain` is then
   * told that it was read.
   * @throws {@link ReadFailure}
   */
  add<T>(sources: readonly OneSource[], begin: () => ReadWork<T>, triedAgain = () => {}): Promise<T> {
    const stop = new AbortController();
    this.underWay.add(stop);
    const again = () => void this.add(sources, begin, triedAgain).then(triedAgain, () => {});
    const result = this.last.then(() => this.run(sources, begin(), stop.signal, again));
    this.last = result.catch(() => {}).finally(() => this.underWay.delete(stop));
    return result;
  }

  /** Stops every read under way or waiting. */
  cancel(): void {
    for (const stop of this.underWay) stop.abort();
  }

  /** The present read has come to its end; to be called before anything that it brought is told. */
  ended(): void {
    this.progress = null;
  }

  /** Keeps and tells what went wrong; `again` tries the same once more, where that may end otherwise. */
  failed(error: unknown, fileName: string | null, again: (() => void) | null = null): ReadFailure {
    const failure = asReadFailure(error, fileName);
    if (failure.code === 'worker-lost') failure.again = again;
    this.failure = failure;
    this.listener.failure(failure);
    this.listener.changed();
    return failure;
  }

  private async run<T>(
    sources: readonly OneSource[],
    work: ReadWork<T>,
    signal: AbortSignal,
    again: () => void,
  ): Promise<T> {
    const fileName = sourceName(sources[0]!);
    const show = (phase: ReadPhase, fraction: number, look = this.progress?.look ?? null) => {
      this.progress = { fileName, phase, fraction, look };
      this.listener.progress({ phase, fraction });
      this.listener.changed();
    };
    this.failure = null;
    this.progress = null;
    try {
      show('opening', 0);
      const frames = await Promise.all(sources.map((source) => openSource(source, signal)));
      const onProgress: ReadRun['onProgress'] = (...news) => signal.aborted || show(...news);
      return await work(frames, { onProgress, signal });
    } catch (error) {
      this.ended();
      throw this.failed(error, fileName, again);
    }
  }
}
