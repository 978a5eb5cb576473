import type { Take } from '../../takes/take.ts';
import { decimals, plusMinusStops, stops } from './figures.ts';

/** A take in two lines: its number with its spread, and the name of its file. */
export function takeWords({ reading }: Take, number: number): { title: string; name: string } {
  const { falloff, frame } = reading;
  const least = falloff.isLowerBound ? 'at least ' : '';
  const averaged = frame.averagedFrames > 1 ? ` and ${decimals(frame.averagedFrames - 1, 0)} more` : '';
  return {
    title: `Take ${number}: ${least}${stops(falloff.spreadEv)} ${plusMinusStops(falloff.plusMinusEv)}`,
    name: `${frame.name}${averaged}`,
  };
}
