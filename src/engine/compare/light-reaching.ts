import type { Exposure, Reading } from '../reading.ts';
import { exactTimes } from '../response/marked-times.ts';
import type { Setup } from '../setup.ts';

/** What the light of a take is told from. */
export interface ExposedTake {
  readonly reading: Reading;
  readonly light: Setup['light'];
  /** Mean light of the background in stops below the white code; `null` where it was not kept. */
  readonly meanLevelEv: number | null;
}

/** Why it can't be told how much light one take had against another. */
export type LightUnknown = 'no-exposure' | 'clipped' | 'no-level' | 'kind-of-light';

/**
 * Stops of light in one take over those in another: by how much brighter it came out, and how much less of it shutter,
 * aperture and ISO let in. A flash is over before the shutter closes, so its time does not count; where nobody said which
 * light it is, both have to have been exposed as long. That a flash fired at one power is for whoever compares to know: no
 * file says so.
 */
export function lightOver(take: ExposedTake, other: ExposedTake): number | LightUnknown {
  if (take.reading.falloff.isLowerBound || other.reading.falloff.isLowerBound) return 'clipped';
  if (take.meanLevelEv === null || other.meanLevelEv === null) return 'no-level';
  const more = letInMore(take, other);
  return typeof more === 'number' ? take.meanLevelEv - other.meanLevelEv - more : more;
}

/** Stops that the camera let in more. */
function letInMore(take: ExposedTake, other: ExposedTake): number | LightUnknown {
  const [mine, its] = [letIn(take.reading.frame.exposure), letIn(other.reading.frame.exposure)];
  if (mine === null || its === null) return 'no-exposure';
  if (take.light === 'flash' && other.light === 'flash') return mine - its;
  const longer = openLonger(take.reading.frame.exposure, other.reading.frame.exposure);
  if (longer === null) return 'no-exposure';
  const isContinuous = take.light === 'continuous' && other.light === 'continuous';
  return isContinuous || longer === 0 ? mine - its + longer : 'kind-of-light';
}

/** Stops that aperture and ISO let in, as the marks stand for: f/5.6 is 2 to the power of 2.5. */
function letIn(exposure: Exposure | null): number | null {
  if (exposure?.fNumber == null || exposure.iso == null) return null;
  return marked(Math.log2(exposure.iso / 100)) - marked(2 * Math.log2(exposure.fNumber));
}

function openLonger(mine: Exposure | null, its: Exposure | null): number | null {
  if (mine?.seconds == null || its?.seconds == null) return null;
  const [first, second] = exactTimes([mine.seconds, its.seconds]);
  return first! - second!;
}

/** Marks of aperture and ISO are rounded; the series behind them is exact in thirds or halves of a stop. */
const NEAR_MARK = 0.09;

function marked(stops: number): number {
  const near = [Math.round(stops * 3) / 3, Math.round(stops * 2) / 2];
  const nearest = near.reduce((a, b) => (Math.abs(a - stops) <= Math.abs(b - stops) ? a : b));
  return Math.abs(nearest - stops) <= NEAR_MARK ? nearest : stops;
}
