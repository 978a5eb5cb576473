import type { Setup } from '../../../src/engine/setup.ts';
import type { StudioSet } from '../studio/studio-set.ts';
import type { Draws } from './draws.ts';
import type { Arrangement } from './good-practice.ts';

/** How far a hand with a tape is off, as a share. */
const HAND_ERROR = 0.05;

/** What a photographer would enter of a set: lengths taped to the centimetre and 5 %, some left out. */
export function enteredSetup(
  set: StudioSet,
  { arrangement, light }: { readonly arrangement: Arrangement; readonly light: Setup['light'] },
  draws: Draws,
): Setup {
  const { between, chance } = draws;
  const taped = (mm: number, leftOut: number): number | null => {
    const read = 10 * Math.round((mm * between(1 - HAND_ERROR, 1 + HAND_ERROR)) / 10);
    return chance(leftOut) ? null : read;
  };
  const skipsRoom = chance(0.3);
  const room = (mm: number) => (skipsRoom ? null : 10 * Math.round(mm / 10));
  const { frameWidthMm: width, frameHeightMm: height, lamps } = set;
  const farthest = (figure: (lamp: (typeof lamps)[number]) => number) =>
    Math.max(0, ...lamps.map((lamp) => figure(lamp)));
  const skipsDistances = chance(0.2);
  const { face } = lamps[0] ?? {};
  const lampWidthMm = face && (face.kind === 'disc' ? face.diameterMm : face.widthMm);
  return {
    arrangement,
    light: chance(0.2) ? null : light,
    frameWidthMm: taped(width, 0.1),
    lampDistanceMm: skipsDistances ? [] : lamps.map((lamp) => taped(lamp.distanceMm, 0.1)),
    lampWidthMm: lampWidthMm === undefined ? null : taped(lampWidthMm, 0.25),
    cameraDistanceMm: taped(set.cameraDistanceMm, 0.25),
    // a light never stands where the room ends
    room: {
      leftMm: room(Math.max(farthest((lamp) => -lamp.xMm) * 1.1, width * between(0.8, 2.5))),
      rightMm: room(Math.max(farthest((lamp) => lamp.xMm) * 1.1, width * between(0.8, 2.5))),
      upMm: room(Math.max(farthest((lamp) => -lamp.yMm) * 1.1, height * between(0.8, 2))),
      downMm: room(Math.max(farthest((lamp) => lamp.yMm) * 1.1, height * between(0.8, 2))),
      reachMm: room(Math.max(farthest((lamp) => lamp.distanceMm) * 1.1, width * between(1.5, 4))),
    },
  };
}
