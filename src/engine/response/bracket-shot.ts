import { EngineError } from '../engine-error.ts';
import type { Exposure } from '../reading.ts';
import type { BlockCodes } from './block-codes.ts';

/** One frame of a bracket, once it is decoded. */
export interface BracketShot {
  readonly name: string;
  readonly sha256: string | null;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly orientation: number;
  readonly exposure: Exposure | null;
  readonly model: string | null;
  readonly isWhiteBalanceAutomatic: boolean | null;
  readonly blocks: BlockCodes;
}

/** Frames that can't be gone by: what was found, what is needed and what to do. */
export function badBracket(message: string, detail: Readonly<Record<string, unknown>> = {}): EngineError {
  return new EngineError('bad-bracket', message, detail);
}

/** What every way out of a bad bracket ends in. */
export const SHOOT_AGAIN =
  'Shoot three or more frames of the same still background that differ in shutter time alone, two stops apart or more from the first to the last.';
