import { EngineError } from '../engine-error.ts';
import { endsEarly } from './ends-early.ts';

const AS_WHAT = 'as a 16-bit TIFF or PNG without a tone curve, or as a DNG';

/** The decoder's own numbers (LibRaw, libraw_const.h). */
const UNKNOWN_FORMAT = -2;
const NOT_IMPLEMENTED = -8;
const NO_MEMORY = [-100007, -100012, -100013];
const CUT_SHORT = -100009;

/** What the decoder's failure means to a photographer; the file's own bytes say whether it is whole. */
export function rawRefusal(error: unknown, bytes: Uint8Array): EngineError {
  if (error instanceof EngineError) return error;
  const message = error instanceof Error ? error.message : String(error);
  const code = Number(/code (-?\d+)/.exec(message)?.[1] ?? Number.NaN);
  const detail = { format: 'raw', decoder: message };
  const refusal = (of: 'unsupported-file' | 'unreadable-file' | 'too-large', text: string) =>
    new EngineError(of, text, detail, { cause: error });
  if (NO_MEMORY.includes(code) || /memory/i.test(message))
    return refusal(
      'too-large',
      'There is not enough memory here to read this raw file. Close other pages and try again, or export it smaller.',
    );
  if (code === CUT_SHORT || endsEarly(bytes))
    return refusal(
      'unreadable-file',
      'The raw file is cut short: it ends before its picture does. Copy it from the card again.',
    );
  if (code === UNKNOWN_FORMAT || code === NOT_IMPLEMENTED)
    return refusal(
      'unsupported-file',
      `This is a raw file of a camera or a kind that is not known here, or its beginning is damaged. Export it ${AS_WHAT}.`,
    );
  return refusal(
    'unreadable-file',
    'The raw file is damaged: its picture could not be unpacked. Copy it from the card again.',
  );
}

/** Where there is no decoder at all. */
export function rawNotRead(): EngineError {
  return new EngineError(
    'unsupported-file',
    `This is a camera’s raw file, which can’t be read here. Export it ${AS_WHAT}.`,
    { format: 'raw' },
  );
}

export function rawTooLarge(bytes: number): EngineError {
  const megabytes = Math.round(bytes / 2 ** 20);
  return new EngineError(
    'too-large',
    `The raw file has ${megabytes} MB; at most 1024 are read. Export it ${AS_WHAT}, or smaller.`,
    { format: 'raw', bytes },
  );
}

/** More colours than three, or none that are known. */
export function unknownColours(colours: number): EngineError {
  return new EngineError(
    'unsupported-file',
    `This raw file has ${colours} colours; one or three were needed. Export it ${AS_WHAT}.`,
    { format: 'raw', colours },
  );
}
