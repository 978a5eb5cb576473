import type { Estimate } from './estimate.ts';
import type { LitSet } from './lit-set.ts';
import type { SecondFrame } from './second-frame.ts';
import { setSources } from './set-light.ts';

/** Spill nearer to the lights' colour cannot be told from them. Own choice. */
const LEAST_SPILL_MIRED = 15;

/** The way that a slope rises, where it is beyond its ± in one direction at least. */
export function sideOf(right: Estimate, down: Estimate): number | null {
  const isKnown = [right, down].some(({ value, plusMinus }) => Math.abs(value) > plusMinus);
  return isKnown ? (Math.atan2(down.value, right.value) * 180) / Math.PI : null;
}

/** Spill of nearly the lights' own colour looks like a wider light. */
export function isSpillTold(mired: Estimate, secondFrames: readonly SecondFrame[]): boolean {
  if (secondFrames.some(({ role }) => role.kind === 'lamp-off')) return true;
  return Math.abs(mired.value) > Math.max(LEAST_SPILL_MIRED, mired.plusMinus);
}

/** The spill's part of the light in the middle of the frame. */
export function spillShare(set: LitSet): number {
  let [spill, all] = [0, 0];
  for (const { kind, level } of setSources(set)) {
    const light = level()(0, 0);
    all += light;
    if (kind === 'spill') spill += light;
  }
  return spill / all;
}
