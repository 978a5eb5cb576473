import { EngineError } from '../src/engine/engine-error.ts';

interface Job {
  readonly start: () => void;
  readonly reject: (reason: EngineError) => void;
}

export interface JobOptions {
  readonly signal?: AbortSignal;
  /** Called where the signal stops a job that has begun; not for one that still waits. */
  readonly whenAborted?: () => void;
}

/**
 * Runs one job at a time in the order of asking. Each promise settles once, whether or not its job ever does: that is
 * what a call to a dead worker needs, which stays pending for ever.
 */
export class JobQueue {
  private waiting: Job[] = [];
  private current: Job | null = null;

  /** @throws {@link EngineError} `cancelled` where the signal says so before the job is done. */
  run<Result>(work: () => Promise<Result>, { signal, whenAborted }: JobOptions = {}): Promise<Result> {
    return new Promise<Result>((resolve, reject) => {
      const abort = () => {
        const hadBegun = this.current === job;
        job.reject(new EngineError('cancelled', 'This was stopped before it was done. Nothing was changed.'));
        if (hadBegun) whenAborted?.();
        this.settle(job);
      };
      const done = () => signal?.removeEventListener('abort', abort);
      const job: Job = {
        start: () => {
          const result = new Promise<Result>((begin) => begin(work())); // work that throws at once rejects too
          result.then(resolve, reject).finally(() => {
            done();
            this.settle(job);
          });
        },
        reject: (reason) => {
          done();
          reject(reason);
        },
      };
      this.waiting.push(job);
      signal?.addEventListener('abort', abort);
      if (signal?.aborted) abort();
      else this.next();
    });
  }

  /** Rejects what runs and what waits; jobs asked for afterwards run as usual. */
  rejectAll(reason: EngineError): void {
    const all = this.current ? [this.current, ...this.waiting] : this.waiting;
    this.waiting = [];
    this.current = null;
    for (const job of all) job.reject(reason);
  }

  /** Rejects what runs, which need never settle; what waits gets its turn. */
  rejectCurrent(reason: EngineError): void {
    if (this.current === null) return;
    this.current.reject(reason);
    this.settle(this.current);
  }

  private settle(job: Job): void {
    this.waiting = this.waiting.filter((other) => other !== job);
    if (this.current === job) this.current = null; // a job given up earlier may settle late: not the current one
    this.next();
  }

  private next(): void {
    if (this.current || this.waiting.length === 0) return;
    this.current = this.waiting.shift()!;
    this.current.start();
  }
}
