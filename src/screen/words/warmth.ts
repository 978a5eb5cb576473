import { kelvinAside as kelvinOf, TOLD_AT_KELVIN } from '../../engine/kelvin-aside.ts';
import { decimals } from './figures.ts';

/** "9 mired cooler (about 290 K at 5500 K)"; positive is warmer. `null` below half a mired. */
export function warmthDifference(mired: number): string | null {
  if (Math.abs(mired) < 0.5) return null;
  return `${decimals(Math.abs(mired), 0)} mired ${mired > 0 ? 'warmer' : 'cooler'} (${kelvinAside(mired)})`;
}

/** "about 290 K at 5500 K": what a change in mired comes to in kelvin there; words where it lies beyond any. */
export function kelvinAside(mired: number): string {
  const kelvin = kelvinOf(mired);
  if (kelvin === null) return 'beyond any colour temperature';
  return `about ${kelvin}\u00a0K at ${TOLD_AT_KELVIN}\u00a0K`;
}

/** "greener by 0.0012 Duv" or "more magenta by …"; positive Duv is greener. `null` below 0.00005. */
export function greenDifference(duv: number): string | null {
  if (Math.abs(duv) < 0.00005) return null;
  return `${duv > 0 ? 'greener' : 'more magenta'} by ${decimals(Math.abs(duv), 4)} Duv`;
}

/** "12 mired cooler (about 340 K at 5500 K) and 0.0021 Duv greener": a colour to be shifted by so much. */
export function colourShift(
  { miredShift, duvShift }: { miredShift: number; duvShift: number },
  aside = kelvinAside(miredShift),
): string {
  const parts = [];
  if (Math.abs(miredShift) >= 0.5)
    parts.push(
      `${decimals(Math.abs(miredShift), 0)} mired ${miredShift > 0 ? 'warmer' : 'cooler'} (${aside})`,
    );
  if (Math.abs(duvShift) >= 0.00005)
    parts.push(`${decimals(Math.abs(duvShift), 4)} Duv ${duvShift > 0 ? 'greener' : 'more magenta'}`);
  return parts.length > 0 ? parts.join(' and ') : 'no further';
}
