import { EngineError } from '../src/engine/engine-error.ts';

/** What is told of work whose engine is no more, after what was found. */
export function lost(found: string, detail: Readonly<Record<string, unknown>> = {}): EngineError {
  return new EngineError(
    'worker-lost',
    `${found}. The earlier takes are kept, and nothing was written. Try the frame again.`,
    detail,
  );
}

/** The same of an engine that has not answered for so long, at a file where it was given one. */
export function lostByHanging(silentMs: number, fileName: string | null): EngineError {
  const minutes = Math.max(1, Math.round(silentMs / 60_000));
  const at = fileName === null ? '' : ` while it worked on ${fileName}`;
  const time = minutes === 1 ? '1 minute' : `${minutes} minutes`;
  return lost(`The engine has not answered for ${time}${at}, and was ended`, { isHanging: true });
}
