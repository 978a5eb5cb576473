/** How often is looked, and asked. */
const LOOK_MS = 2000;
/** A look that comes later than this was held up with the page, or the machine slept: so much of it counts. */
const MOST_COUNTED_MS = 2 * LOOK_MS;
/** Work that answers and yet gets no further is waited for so many times longer: a file may come slowly from afar. */
const WAITING_FOR_AFAR = 10;

export interface Watched {
  /** Longer than any computation keeps a worker from answering, however slow the machine is. */
  readonly longestSilenceMs: number;
  /** Asks for an answer, which a worker gives as soon as it is not computing. */
  readonly ask: () => Promise<unknown>;
  /** Told once, with how long nothing was heard. */
  readonly hung: (silentMs: number) => void;
}

/**
 * Tells a worker that hangs from one that works: a computation without an end neither gets further nor answers. What
 * the page itself was held up for counts next to nothing: hidden pages look rarely, and a machine asleep not at all.
 */
export class HangWatch {
  private silentMs = 0;
  private stillMs = 0;
  private isAsked = false;
  private lookedAt = performance.now();
  private readonly looking = setInterval(() => this.look(), LOOK_MS);

  constructor(private readonly watched: Watched) {}

  /** The work got further. */
  gotFurther(): void {
    this.stillMs = 0;
    this.silentMs = 0;
  }

  stop(): void {
    clearInterval(this.looking);
  }

  private look(): void {
    const now = performance.now();
    const passedMs = Math.min(now - this.lookedAt, MOST_COUNTED_MS);
    this.lookedAt = now;
    this.silentMs += passedMs;
    this.stillMs += passedMs;
    const { longestSilenceMs, ask, hung } = this.watched;
    if (this.silentMs > longestSilenceMs || this.stillMs > WAITING_FOR_AFAR * longestSilenceMs) {
      this.stop();
      hung(Math.max(this.silentMs, this.stillMs));
      return;
    }
    if (this.isAsked) return;
    this.isAsked = true;
    const answered = () => {
      this.isAsked = false;
      this.silentMs = 0;
    };
    ask().then(answered, answered); // an error is an answer too
  }
}

/** Where the longest step computes for some seconds, a machine may be so many times slower and it is still no hang. */
const LEAST_SILENCE_MS = 300_000;
/** Decoding that tells of no progress takes up to 0.3 s a MB; ten times that. */
const SILENCE_MS_PER_MB = 3000;

/** How long work on files of so many bytes may keep a worker from answering. */
export function longestSilenceMs(bytes: number): number {
  return LEAST_SILENCE_MS + (SILENCE_MS_PER_MB * bytes) / 2 ** 20;
}
