import type { EngineErrorCode } from '../engine/engine-error.ts';

/** What a rejected promise of the element carries: a code of the public contract, a message, and which file. */
export class ReadFailure extends Error {
  readonly code: EngineErrorCode;
  readonly fileName: string | null;
  /** Tries the same once more; `null` where it would end the same, or its files are not at hand. */
  again: (() => void) | null = null;

  constructor(code: EngineErrorCode, message: string, fileName: string | null, cause?: unknown) {
    super(message, { cause });
    this.name = 'ReadFailure';
    this.code = code;
    this.fileName = fileName;
  }
}

/** Any error as a failure with a code; one without a code is a defect, and says so. */
export function asReadFailure(error: unknown, fileName: string | null): ReadFailure {
  if (error instanceof ReadFailure) return error;
  const { code, detail } = (error ?? {}) as { code?: unknown; detail?: { fileName?: unknown } };
  const named = typeof detail?.fileName === 'string' ? detail.fileName : fileName;
  const message = error instanceof Error ? error.message : String(error);
  if (typeof code === 'string') return new ReadFailure(code as EngineErrorCode, message, named, error);
  return new ReadFailure(
    'unreadable-file',
    `Reading stopped where it should not have: ${message}`,
    named,
    error,
  );
}
