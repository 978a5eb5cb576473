import { baseStops } from './code-axis.ts';
import { differenceAt } from './curve-fit.ts';
import { risingCurve } from './rising-curve.ts';

/** A curve as guessed so far, to be read in both directions. */
export interface CurveGuess {
  readonly stopsAt: (code: number) => number;
  readonly codeAt: (stops: number) => number;
  /** Stops to a code. */
  readonly slopeAt: (code: number) => number;
}

const PER_CODE = 4;
const LAST_CODE = 255;
/** An early guess may be level somewhere; it is then taken to rise as little as this, in stops to a code. */
const LEAST_SLOPE = 1e-4;

/** @param parameters - splines' heights; `null` for sRGB's own curve. */
export function curveGuess(parameters: Float64Array | null): CurveGuess {
  const raw = Float64Array.from({ length: LAST_CODE * PER_CODE + 1 }, (_, i) => {
    const code = i / PER_CODE;
    return baseStops(code) + (parameters ? differenceAt(parameters, code) : 0);
  });
  const table = Float64Array.from(risingCurve(raw), (stops, i) => stops + (i * LEAST_SLOPE) / PER_CODE);
  const last = table.length - 1;
  const stopsAt = (code: number) => {
    const position = Math.min(Math.max(code, 0), LAST_CODE) * PER_CODE;
    const below = Math.min(Math.floor(position), last - 1);
    return table[below]! + (table[below + 1]! - table[below]!) * (position - below);
  };
  const codeAt = (stops: number) => {
    let [low, high] = [0, last];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (table[middle]! <= stops) low = middle;
      else high = middle;
    }
    const share = (stops - table[low]!) / (table[high]! - table[low]!);
    return (low + Math.min(Math.max(share, 0), 1)) / PER_CODE;
  };
  const slopeAt = (code: number) => {
    const [from, to] = [Math.max(code - 1, 0), Math.min(code + 1, LAST_CODE)];
    return (stopsAt(to) - stopsAt(from)) / (to - from);
  };
  return { stopsAt, codeAt, slopeAt };
}
