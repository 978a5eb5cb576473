import { toneCurveAllowance } from './tone-curve-allowance.ts';

/** What leaves a file's light in doubt beyond noise and rounding. Structured-cloneable. */
export interface LightDoubt {
  /**
   * Whether a tone curve may have been laid on that is not undone. It is counted in the ± where a camera writes such
   * files by itself, and only told where whoever saved the file chose its coding.
   */
  readonly toneCurve: 'none' | 'told' | 'counted';
  /** 95 % half-width of a recovered response, in stops between two levels. */
  readonly responseEv: number;
  /** Least and most light (1 is white) that the bracket of that response showed; left out where it is known whole. */
  readonly responseSeen?: readonly [from: number, to: number];
  /** 95 % half-width of the black level, as linear light (1 is white). */
  readonly blackLight: number;
  /** 95 % half-width of what a coding with losses does to smooth light, in stops between two levels; 0 where left out. */
  readonly codingEv?: number;
}

export const NO_DOUBT: LightDoubt = { toneCurve: 'none', responseEv: 0, blackLight: 0 };

/** What a falloff between two levels of light (1 is white) may be wrong by, in stops: the half-width of a 95 % interval. */
export function doubtEv(doubt: LightDoubt, bright: number, dark: number): number {
  if (!(dark > 0 && bright > dark)) return 0;
  const curve = doubt.toneCurve === 'counted' ? toneCurveAllowance(bright, dark) : 0;
  // one black for both: what it adds to the dark it adds to the bright too
  const black = Math.log2(1 + doubt.blackLight / dark) - Math.log2(1 + doubt.blackLight / bright);
  const response = doubt.responseEv * Math.min(1, Math.log2(bright / dark) / ERRS_ALIKE_STOPS);
  return Math.hypot(curve, black, response, drawnOnEv(doubt, bright, dark), doubt.codingEv ?? 0);
}

/**
 * A response errs alike at neighbouring levels; over a shoulder, where backgrounds lie, from so many stops on as over its
 * whole range. Measured over drawn brackets: with a whole stop one small falloff in four was off by more than its ±.
 */
const ERRS_ALIKE_STOPS = 1 / 3;

/** From so many stops beyond what a bracket showed, all that is read there may be the drawing's. Own allowance. */
const LOST_STOPS = 1;

/** What of a falloff may be wrong because a response is only drawn on there, in stops: ever more, the farther beyond. */
function drawnOnEv({ responseSeen }: LightDoubt, bright: number, dark: number): number {
  if (!responseSeen) return 0;
  const [from, to] = responseSeen;
  const wrong = (stops: number) =>
    stops < LOST_STOPS ? Math.max(0, stops) ** 2 / (2 * LOST_STOPS) : stops - LOST_STOPS / 2;
  const upTo = (light: number) => wrong(Math.log2(light / to)) - wrong(Math.log2(from / light));
  return upTo(bright) - upTo(dark);
}

/** From here up a usual curve's shoulder may hide as much as it shows. */
const NEAR_WHITE = 0.85;

/** One or two sentences: what may be wrong with the falloff between two levels, in stops; empty where nothing is in doubt. */
export function doubtSays(doubt: LightDoubt, bright: number, dark: number): string {
  if (!(dark > 0 && bright > dark)) return '';
  const stops = (ev: number) => `${ev < 0.095 ? ev.toFixed(2) : ev.toFixed(1)} stop`;
  if (doubt.toneCurve !== 'none') {
    const counted = doubt.toneCurve === 'counted' ? 'allows for' : 'does not allow for';
    const cost = stops(toneCurveAllowance(bright, dark));
    return (
      `Over this frame’s range of light a usual tone curve would make the falloff wrong by up to ${cost} (own estimate), ` +
      `which the ± ${counted}.${bright > NEAR_WHITE ? ' So close to white it may hide more still: expose a stop lower.' : ''}`
    );
  }
  const known = doubtEv(doubt, bright, dark);
  if (known < 0.005) return '';
  const drawnOn =
    drawnOnEv(doubt, bright, dark) < 0.005
      ? ''
      : 'Part of this frame’s light lies beyond what the bracket showed: shoot the bracket wider, or this frame nearer to it. ';
  return `${drawnOn}That leaves ${stops(known)} of doubt over this frame’s range of light, which the ± allows for.`;
}
