import { quantile } from '../numeric/quantile.ts';
import type { BlockCodes } from './block-codes.ts';
import type { ResponseChannels } from './camera-response.ts';

/** How far a file's light is from linear, by two exposures of one thing. */
export interface TwoExposures {
  /** Stops between the two. */
  readonly stops: number;
  /** Stops that one of them shows as, by the file's own coding: 1 in linear light. */
  readonly perStop: number;
  readonly plusMinus: number;
  /** Shares of white between which that was seen. */
  readonly fromLevel: number;
  readonly toLevel: number;
}

/** Standard deviation of what a shutter's step is off, in stops: own choice. */
const STEP_EV = 0.03;
const LEAST_PLACES = 16;
/** Blocks next to each other share noise and rounding: so many count as one. */
const ALIKE = 8;

/** @param lightAtCode - of the files as they are coded, 256 codes each. @returns `null` where too little is comparable. */
export function twoExposures(
  bright: BlockCodes,
  dark: BlockCodes,
  stops: number,
  lightAtCode: ResponseChannels<Float64Array>,
): TwoExposures | null {
  const tables = [lightAtCode.red, lightAtCode.green, lightAtCode.blue];
  const ratios: number[] = [];
  const levels: number[] = [];
  for (const [c, channel] of bright.channels.entries()) {
    const table = bright.channels.length === 1 ? tables[1]! : tables[c]!;
    const its = dark.channels[c]!.code;
    channel.code.forEach((code, block) => {
      if (Number.isNaN(code) || Number.isNaN(its[block]!)) return;
      const [more, less] = [lightAt(table, code), lightAt(table, its[block]!)];
      ratios.push(Math.log2(more / less) / stops);
      levels.push(more, less);
    });
  }
  const finite = ratios.filter(Number.isFinite);
  if (finite.length < LEAST_PLACES) return null;
  const perStop = quantile(finite, 0.5);
  const spread = (quantile(finite, 0.84) - quantile(finite, 0.16)) / 2;
  const sigma = Math.hypot(
    spread / Math.sqrt(finite.length / ALIKE),
    (Math.SQRT2 * STEP_EV * perStop) / stops,
  );
  return {
    stops,
    perStop,
    plusMinus: 1.96 * sigma,
    fromLevel: quantile(levels, 0.02),
    toLevel: quantile(levels, 0.98),
  };
}

export function twoExposuresSay(two: TwoExposures, { by }: { readonly by: 'shutter' | 'entered' }): string {
  const { perStop, plusMinus, fromLevel, toLevel } = two;
  const seen = `one stop of ${by === 'shutter' ? 'shutter' : 'exposure'} shows as ${perStop.toFixed(2)} ± ${plusMinus.toFixed(2)} stop between ${percent(fromLevel)} and ${percent(toLevel)} of white`;
  const off = perStop - 1;
  if (Math.abs(off) <= plusMinus) return `In these two frames ${seen}, as in linear light within the ±.`;
  return `In these two frames ${seen}: falloff there is ${off < 0 ? 'hidden' : 'exaggerated'} by about ${Math.round(100 * Math.abs(off))} %.`;
}

function lightAt(table: Float64Array, code: number): number {
  const below = Math.min(Math.floor(code), table.length - 2);
  return table[below]! + (table[below + 1]! - table[below]!) * (code - below);
}

const percent = (share: number) => `${Math.round(100 * share)}\u00a0%`;
