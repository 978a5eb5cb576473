import { decimals } from './figures.ts';

/** Where a change of warmth is told in kelvin: most flash heads and daylight lie near it. */
const TOLD_AT_KELVIN = 5500;

/** "9 mired cooler (about 290 K at 5500 K)"; positive is warmer. `null` below half a mired. */
export function warmthDifference(mired: number): string | null {
  if (Math.abs(mired) < 0.5) return null;
  return `${decimals(Math.abs(mired), 0)} mired ${mired > 0 ? 'warmer' : 'cooler'} (${kelvinAside(mired)})`;
}

/** "about 290 K at 5500 K": what a change in mired comes to in kelvin there, to the nearest ten. */
export function kelvinAside(mired: number): string {
  const changed = 1e6 / (1e6 / TOLD_AT_KELVIN + mired);
  const kelvin = Math.round(Math.abs(changed - TOLD_AT_KELVIN) / 10) * 10;
  return `about ${kelvin}\u00a0K at ${TOLD_AT_KELVIN}\u00a0K`;
}

/** "greener by 0.0012 Duv" or "more magenta by …"; positive Duv is greener. `null` below 0.00005. */
export function greenDifference(duv: number): string | null {
  if (Math.abs(duv) < 0.00005) return null;
  return `${duv > 0 ? 'greener' : 'more magenta'} by ${decimals(Math.abs(duv), 4)} Duv`;
}
