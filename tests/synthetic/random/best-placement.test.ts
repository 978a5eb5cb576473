import { describe, expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_SET, SHEET_SET } from '../studio/even-set.ts';
import { plainLamp, type StudioLamp, type StudioSet } from '../studio/studio-set.ts';
import { bestPlacementEv } from './best-placement.ts';
import { spreadEv } from './spread-ev.ts';

/** Far aside any light is even, so the room ends. */
const ROOM = { leftMm: 700, rightMm: 700, upMm: 400, downMm: 400 };
const BULB = plainLamp({
  distanceMm: 600,
  face: { kind: 'disc', diameterMm: 2 },
  beam: { kind: 'cosine-power', power: 0 },
});

/** A wall of 600 mm lit by two equal bare bulbs, one frame width off, so far either side. */
const pair = (asideMm: number): StudioSet => ({
  ...EVEN_SET,
  background: { kind: 'wall' },
  lamps: [-asideMm, asideMm].map((xMm) => plainLamp({ ...BULB, xMm, aimXMm: xMm })),
});

/** One bare bulb at a place, and behind a sheet or before a wall. */
const bulb = (changes: Partial<StudioLamp>, background: StudioSet['background']): StudioSet => ({
  ...EVEN_SET,
  ...{ background, lamps: [{ ...BULB, ...changes }] },
});
const SHEET = SHEET_SET.background;
const WALL = { kind: 'wall' } as const;
const bestOf = (set: StudioSet, reachMm: number) =>
  bestPlacementEv(set, { ...ROOM, reachMm }, seededRandom(3));

describe('bestPlacementEv(set, room, random)', () => {
  test('two equal lights: no worse than half their distance either side', () => {
    const half = spreadEv(pair(300));
    const best = bestOf(pair(500), 600);
    console.log(
      `measured: two lights ${best.toFixed(3)} EV at best, ${half.toFixed(3)} at half their distance`,
    );
    expect(best).toBeLessThan(half + 0.001);
    // nor than the frame's upper and lower edge leave of light that is flat across
    expect(best).toBeGreaterThan(0.1);
  });

  test('one light behind a sheet: before the middle, as far back as the room lets it', () => {
    const best = bestOf(bulb({ xMm: 150, yMm: -60 }, SHEET), 900);
    const centred = spreadEv(bulb({ distanceMm: 900 }, SHEET));
    console.log(`measured: one light ${best.toFixed(3)} EV at best, ${centred.toFixed(3)} before the middle`);
    expectWithin(best, centred, 0.02);
  });

  test('no light is counted in shot: the same light before a wall cannot stand there', () => {
    const aside = bulb({ xMm: 400, yMm: -60 }, WALL);
    const centred = spreadEv(bulb({ distanceMm: 1000 }, WALL));
    const best = bestOf(aside, 1000);
    console.log(`measured: one light aside ${best.toFixed(3)} EV at best, ${centred.toFixed(3)} in shot`);
    expect(best).toBeGreaterThan(centred + 0.05);
    expect(best).toBeLessThan(spreadEv(aside) - 0.1);
  });

  test('never tells worse than the studio is', () => {
    const stands = bulb({ distanceMm: 900 }, SHEET);
    expect(bestOf(stands, 900)).toBeLessThanOrEqual(spreadEv(stands));
  });
});
