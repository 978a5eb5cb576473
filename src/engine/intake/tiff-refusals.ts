import { EngineError } from '../engine-error.ts';

export function damagedTiff(found: string, cause?: unknown): EngineError {
  return new EngineError(
    'unreadable-file',
    `The TIFF is damaged: ${found}. Copy or export it again.`,
    { format: 'tiff' },
    { cause },
  );
}

/** @param found as what the file is, or holds: the sentence begins "The TIFF " */
export function unreadTiff(found: string, exportAs: string): EngineError {
  return new EngineError(
    'unsupported-file',
    `The TIFF ${found}, which is not read yet. Export it ${exportAs}.`,
    { format: 'tiff' },
  );
}
