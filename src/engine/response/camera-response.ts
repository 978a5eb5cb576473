import type { Exposure } from '../reading.ts';

/** One frame that a response was recovered from. */
export interface BracketFrame {
  readonly name: string;
  readonly sha256: string | null;
  readonly exposure: Exposure | null;
  /** Stops of exposure against the brightest frame, which has 0; others are negative. */
  readonly stops: number;
}

/** What a response was recovered from. */
export interface BracketFacts {
  /** Brightest first. */
  readonly frames: readonly BracketFrame[];
  /** Whether the stops between them are Exif's shutter times or what was entered. */
  readonly stopsBy: 'shutter' | 'entered';
  /** Lowest and highest code that the frames tell of; beyond them the curve is drawn on. `null` where it is known whole. */
  readonly codes: ResponseChannels<readonly [number, number]> | null;
}

export interface ResponseChannels<Of> {
  readonly red: Of;
  readonly green: Of;
  readonly blue: Of;
}

/**
 * What light a camera's 8-bit codes stand for: schema `evenfield.response/1` of the public contract. Log2 light of
 * every code, 0 at the white code, never falling.
 */
export interface CameraResponse {
  readonly schema: 'evenfield.response/1';
  /** As Exif names it; `null` where the files do not. */
  readonly camera: string | null;
  readonly channels: ResponseChannels<readonly number[]>;
  /** Half-width of the 95 % interval of a difference of light, in stops, between two codes that the frames tell of. */
  readonly plusMinusEv: number;
  /** Stops between the least and the most exposed frame. */
  readonly fromStops: number;
  readonly madeFrom: BracketFacts;
}

export const RESPONSE_CODES = 256;
