import { EngineError } from '../engine-error.ts';
import type { StatedChromaticities } from './stored-image.ts';
import type { ToneCurve } from './tone-curve.ts';

/** What a file states of its colours by number. Source: Rec. ITU-T H.273, tables 2 and 3, as remembered. */
export interface CodePoints {
  readonly primaries: number;
  readonly transfer: number;
}

/** Their meaning; `null` where a file leaves one of them unspecified. */
export interface CodedColour {
  readonly primaries: ({ readonly name: string } & StatedChromaticities) | null;
  readonly curve: { readonly name: string; readonly curve: Exclude<ToneCurve, { kind: 'table' }> } | null;
}

const UNSPECIFIED = 2;
const D65 = [0.3127, 0.329] as const;

const PRIMARIES: Readonly<Record<number, NonNullable<CodedColour['primaries']>>> = {
  1: { name: 'BT.709', red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06], white: D65 },
  5: { name: 'BT.601 (625 lines)', red: [0.64, 0.33], green: [0.29, 0.6], blue: [0.15, 0.06], white: D65 },
  6: { name: 'BT.601 (525 lines)', red: [0.63, 0.34], green: [0.31, 0.595], blue: [0.155, 0.07], white: D65 },
  7: { name: 'BT.601 (525 lines)', red: [0.63, 0.34], green: [0.31, 0.595], blue: [0.155, 0.07], white: D65 },
  9: { name: 'BT.2020', red: [0.708, 0.292], green: [0.17, 0.797], blue: [0.131, 0.046], white: D65 },
  11: {
    name: 'P3, theatre white',
    red: [0.68, 0.32],
    green: [0.265, 0.69],
    blue: [0.15, 0.06],
    white: [0.314, 0.351],
  },
  12: { name: 'P3', red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06], white: D65 },
};

/** The curve of video cameras, taken back; codes 1, 6, 14 and 15 differ in digits that no code shows. */
const VIDEO = {
  name: 'BT.709’s curve',
  curve: {
    kind: 'parametric',
    g: 1 / 0.45,
    a: 1 / 1.099,
    b: 0.099 / 1.099,
    c: 1 / 4.5,
    d: 0.081,
    e: 0,
    f: 0,
  },
} as const;

const CURVES: Readonly<Record<number, NonNullable<CodedColour['curve']>>> = {
  1: VIDEO,
  4: { name: 'the exponent 2.2', curve: { kind: 'exponent', exponent: 2.2 } },
  5: { name: 'the exponent 2.8', curve: { kind: 'exponent', exponent: 2.8 } },
  6: VIDEO,
  8: { name: 'no curve (linear)', curve: { kind: 'exponent', exponent: 1 } },
  13: {
    name: 'sRGB’s curve',
    curve: {
      kind: 'parametric',
      g: 2.4,
      a: 1 / 1.055,
      b: 0.055 / 1.055,
      c: 1 / 12.92,
      d: 0.04045,
      e: 0,
      f: 0,
    },
  },
  14: VIDEO,
  15: VIDEO,
};

/** High dynamic range: white is no fixed code there, so that neither clipping nor a level below white has a meaning. */
const HIGH_RANGE: Readonly<Record<number, string>> = {
  16: 'PQ (SMPTE ST 2084)',
  18: 'HLG (hybrid log-gamma)',
};

/** @param codePoints as {@link refuseCodePoints} lets pass */
export function codedColour({ primaries, transfer }: CodePoints): CodedColour {
  return { primaries: PRIMARIES[primaries] ?? null, curve: CURVES[transfer] ?? null };
}

/** Whether they say nothing at all. */
export function areUnspecified({ primaries, transfer }: CodePoints): boolean {
  return primaries === UNSPECIFIED && transfer === UNSPECIFIED;
}

/** Why a picture so coded can't be read, to stand after "The PNG"; `null` where it can. */
export function codePointsNotRead({ primaries, transfer }: CodePoints): string | null {
  const range = HIGH_RANGE[transfer];
  if (range) return `is coded for high dynamic range, by ${range}`;
  if (transfer !== UNSPECIFIED && !CURVES[transfer]) return `states the curve number ${transfer}`;
  if (primaries !== UNSPECIFIED && !PRIMARIES[primaries]) return `states the primaries number ${primaries}`;
  return null;
}

/** @throws {@link EngineError} `unsupported-file`, saying why and what to do. */
export function refuseCodePoints(codePoints: CodePoints, format: string): void {
  const why = codePointsNotRead(codePoints);
  if (why === null) return;
  throw new EngineError(
    'unsupported-file',
    `The ${format} ${why}, which is not read here. Export it as a 16-bit TIFF or PNG of standard range, or as sRGB.`,
    { ...codePoints },
  );
}
