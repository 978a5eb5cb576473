import type { Exposure } from '../reading.ts';
import type { Setup } from '../setup.ts';
import { apertureChange, inThirds, isoChange, type MarkedChange, shutterChange } from './third-stops.ts';

/** What a way costs or risks besides the light. */
export type ExposureCaution = 'sync' | 'flicker' | 'shutter-does-nothing';

/** One way to change the light in the picture by whole thirds of a stop. */
export interface ExposureWay {
  readonly kind: 'shutter' | 'aperture' | 'iso' | 'power';
  /** Of the camera's own setting; of power as a share of full power, `null` where that is not known. */
  readonly from: number | null;
  readonly to: number | null;
  /** More light that it brings. */
  readonly stops: number;
  /** What it leaves of the change that was asked for: positive where it is still too dark. */
  readonly leavesEv: number;
  readonly caution: ExposureCaution | null;
}

export interface ExposedBy {
  readonly exposure: Exposure | null;
  readonly light: Setup['light'];
  /** Share of full power that the light stands at, 0 to 1; `null` where nobody says. */
  readonly power: number | null;
  /** Whether the background's light alone is to change. */
  readonly isLightAlone: boolean;
}

/** Shorter times show part of a flash only, behind many cameras' curtains. Common practice, no published source. */
export const SYNC_SECONDS = 1 / 200;

/**
 * From here down light that follows the mains may differ from frame to frame and across one: what is left of its ripple after
 * a time T is |sin(πfT) / (πfT)| of it, at f of 100 or 120 Hz, and falls to nothing at whole periods.
 */
export const STEADY_SECONDS = 1 / 60;

/** Full power down to 1/256. Common practice, no published source. */
const LEAST_POWER = 1 / 256;

/** How the light in the picture can be changed by so many stops, in whole thirds; those that do nothing are left out. */
export function waysToExpose(
  stops: number,
  { exposure, light, power, isLightAlone }: ExposedBy,
): readonly ExposureWay[] {
  if (inThirds(stops) === 0) return [];
  const ways: ExposureWay[] = [];
  const marked = (
    kind: ExposureWay['kind'],
    change: MarkedChange | null,
    caution: ExposureCaution | null,
  ) => {
    if (change === null || Math.abs(change.stops) < 0.1) return;
    ways.push({ kind, ...change, leavesEv: stops - change.stops, caution });
  };
  if (exposure && !isLightAlone) {
    const { seconds, fNumber, iso } = exposure;
    const time = seconds === null || light === 'flash' ? null : shutterChange(seconds, stops);
    marked('shutter', time, time && shutterCaution(time.to, light));
    marked('aperture', fNumber === null ? null : apertureChange(fNumber, stops), null);
    marked('iso', iso === null ? null : isoChange(iso, stops), null);
  }
  const byPower = powerChange(stops, power);
  if (byPower) ways.push(byPower);
  return ways;
}

function shutterCaution(seconds: number, light: Setup['light']): ExposureCaution | null {
  // it may be a flash
  if (light === null) return seconds < SYNC_SECONDS * 0.98 ? 'sync' : 'shutter-does-nothing';
  return seconds < STEADY_SECONDS * 0.99 ? 'flicker' : null;
}

function powerChange(stops: number, power: number | null): ExposureWay | null {
  const thirds = inThirds(stops);
  const to = power === null ? null : power * 2 ** thirds;
  if (to !== null && (to > 1.01 || to < LEAST_POWER * 0.99)) return null;
  return { kind: 'power', from: power, to, stops: thirds, leavesEv: stops - thirds, caution: null };
}

/** Whether the frame itself was shot at a time that many cameras do not keep in step with a flash. */
export function isBeyondSync(exposure: Exposure | null, light: Setup['light']): boolean {
  return light === 'flash' && exposure?.seconds != null && exposure.seconds < SYNC_SECONDS * 0.98;
}
