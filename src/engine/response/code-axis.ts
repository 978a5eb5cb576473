import { srgbDecode } from '../colour/srgb-curve.ts';

const LAST_CODE = 255;
/** Half a code: what the ends' log odds are kept finite by. */
const END = 0.5 / LAST_CODE;
const FARTHEST = Math.log((1 + END) / END);
/** Black stands for less than half a code. */
const DARKEST_CODE = 0.25;

/**
 * Where a code stands along the axis on which curves are smooth, 0 to 1: the log odds of its value. Toe and shoulder
 * of a camera's curve, which bend within few codes, lie drawn out there.
 */
export function positionOfCode(code: number): number {
  const value = code / LAST_CODE;
  return (Math.log((value + END) / (1 - value + END)) / FARTHEST + 1) / 2;
}

/** Log2 light of a code by sRGB's curve: what recovered curves are told as differences from. */
export function baseStops(code: number): number {
  return Math.log2(srgbDecode(Math.max(code, DARKEST_CODE) / LAST_CODE));
}

/** Stops to a code by sRGB's curve. */
export function baseSlope(code: number): number {
  const value = Math.max(code, DARKEST_CODE) / LAST_CODE;
  const perValue = value <= 0.04045 ? 1 / value : 2.4 / (value + 0.055);
  return perValue / LAST_CODE / Math.LN2;
}

/**
 * The code of the mean light of pixels whose codes have this mean and variance: the mean of codes under a curve that
 * bends is not the code of the mean. To second order, by sRGB's bend.
 */
export function codeOfMeanLight(meanCode: number, variance: number): number {
  const value = meanCode / LAST_CODE;
  const bend = value <= 0.04045 ? 0 : 1.4 / (value + 0.055) / LAST_CODE;
  return meanCode + 0.5 * variance * bend;
}
