// What the page knows of jobs before one is written or opened, for which alone the rest is fetched.

/** The number that this Evenfield writes. */
export const JOB_SCHEMA = 1;

/** Most of what is written and opened. */
export interface JobLimits {
  /** Of all that it unpacks to. */
  readonly bytes: number;
  /** Of one part, which alone is in memory at a time. */
  readonly lineBytes: number;
}

/** A take of a 16-bit frame has 3.5 MB, of an 8-bit one a third of it: a thousand takes and more. */
export const JOB_LIMITS: JobLimits = { bytes: 4 * 2 ** 30, lineBytes: 32 * 2 ** 20 };

/** Why a file is not opened as a job, or none is written. */
export class JobRefusal extends Error {
  override name = 'JobRefusal';

  constructor(
    readonly reason: 'not-a-job' | 'other-schema' | 'other-takes' | 'damaged' | 'too-large' | 'unsound-take',
    /** The number that another schema has: of the file, or of the takes in it. */
    readonly schema: number | null = null,
    /** The take that would not be opened again, by its number. */
    readonly take: number | null = null,
  ) {
    super(`the file is not opened as a job: ${reason}`);
  }
}

/** Whether a file begins as gzip does; no picture does. */
export async function looksLikeJob(file: Blob): Promise<boolean> {
  const [first, second] = new Uint8Array(await file.slice(0, 2).arrayBuffer());
  return first === 0x1f && second === 0x8b;
}
