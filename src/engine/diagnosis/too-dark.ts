import type { Finding } from '../reading.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { shareInWords, stopsInWords } from './figures-in-words.ts';
import { lightLevel } from './light-level.ts';
import { limitStops } from './limit-stops.ts';

/**
 * A measurement is to be four times finer than the tolerance it judges: common practice of measuring rooms (the
 * four-to-one rule of ANSI/NCSL Z540.3; from memory).
 */
const FINER_THAN_TOLERANCE = 4;

/** What is left of noise averaging where pixels go together is known within a factor of two: one stop. */
const DARKNESS_PLUS_MINUS = 1;

/** Less than a third of a stop of room to the aim is no fault of the exposure. Common practice: a dial's click. */
const LEAST_ROOM_STOPS = 1 / 3;

/** Part of the frame without any light left to measure, beyond specks. Own allowance, as for highlights. */
const BLOCKED_SHARE_BORNE = 0.001;

/** How much too dark a frame is for its tolerance, on a base-2 scale; what limits it; and the room there is. */
export interface Darkness {
  /** 0: noise and coding leave exactly a quarter of the tolerance; 1: twice that; negative: finer than needed. */
  readonly excess: number;
  readonly plusMinus: number;
  readonly blocked: boolean;
  readonly stopsToAim: number;
  readonly levelPlusMinusEv: number;
}

/** Weighs what noise and coding leave uncertain at this exposure against the tolerance; no room, no darkness. */
export function darkness({
  measurement,
  grid,
  tolerance,
}: Pick<DiagnosisInput, 'measurement' | 'grid' | 'tolerance'>): Darkness {
  const { stopsToAim, plusMinusEv } = lightLevel(grid);
  const room = stopsToAim >= LEAST_ROOM_STOPS;
  const needed = limitStops(tolerance) / FINER_THAN_TOLERANCE;
  return {
    excess: room ? Math.log2(plusMinusEv / needed) : Number.NEGATIVE_INFINITY,
    plusMinus: DARKNESS_PLUS_MINUS,
    blocked: room && measurement.clipping.shadowShare > BLOCKED_SHARE_BORNE,
    stopsToAim,
    levelPlusMinusEv: plusMinusEv,
  };
}

/** The background lies so far below clipping that noise or the step between codes limits the figures. */
export function tooDark(input: DiagnosisInput): Finding | null {
  const { excess, plusMinus, blocked, stopsToAim, levelPlusMinusEv } = darkness(input);
  const noisy = excess > plusMinus;
  if (!noisy && !blocked) return null;
  const why = noisy
    ? `noise and coding alone leave ±${stopsInWords(levelPlusMinusEv)}`
    : `${shareInWords(input.measurement.clipping.shadowShare)} of it is black`;
  return {
    kind: 'too-dark',
    confidence: noisy ? confidenceOf(excess, plusMinus) : 1,
    ev: null,
    mired: null,
    at: input.measurement.falloff.darkestAt,
    says: `The frame is too dark to be read finely, ${why}: give it ${stopsInWords(stopsToAim)} more.`,
    lengthsMm: null,
  };
}
