/** Codes that a photographer's file or set-up can cause; part of the public contract, never renamed. */
export type EngineErrorCode =
  | 'unreadable-file'
  | 'unsupported-file'
  | 'not-an-image'
  | 'too-large'
  | 'too-small'
  | 'no-light'
  | 'all-clipped'
  | 'not-blank'
  | 'no-model'
  | 'wrong-profile'
  | 'bad-bracket'
  | 'cannot-write'
  | 'storage-full'
  | 'cancelled'
  | 'worker-lost';

/**
 * What a file, a profile or a set-up can cause, as opposed to a programmer's mistake (`RangeError`, `TypeError`).
 * The message says what was found, what was needed and what to do.
 */
export class EngineError extends Error {
  readonly code: EngineErrorCode;
  /** Plain, structured-cloneable figures behind the message. */
  readonly detail: Readonly<Record<string, unknown>>;

  constructor(
    code: EngineErrorCode,
    message: string,
    detail: Readonly<Record<string, unknown>> = {},
    options?: { cause?: unknown },
  ) {
    super(message, options as ErrorOptions | undefined);
    this.name = 'EngineError';
    this.code = code;
    this.detail = detail;
  }
}

/** Lets an error say which of several files caused it. */
export async function withFileName<T>(fileName: string, work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (!(error instanceof EngineError)) throw error;
    throw new EngineError(error.code, error.message, { ...error.detail, fileName }, { cause: error });
  }
}
