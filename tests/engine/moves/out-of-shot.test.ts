import { expect, test } from 'vitest';
import type { SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { outOfShot } from '../../../src/engine/moves/out-of-shot.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { drawsFrom } from '../../synthetic/random/draws.ts';
import { isInShot } from '../../synthetic/random/within-room.ts';
import { EVEN_SET } from '../../synthetic/studio/even-set.ts';
import { plainLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
import { lightOf, setOf } from '../lamps/set-of.ts';

const WIDTH_MM = EVEN_SET.frameWidthMm;
const WALL: StudioSet = { ...EVEN_SET, background: { kind: 'wall' } };
const SET = setOf([], { cameraDistance: WALL.cameraDistanceMm / WIDTH_MM });
const CLEARANCE = 0.05;
const out = (changes: Partial<SetLight>, set = SET) => outOfShot(set, lightOf(changes));

/** The studio, written apart, goes by the face as it is turned. */
function isSeen({ x, y, distance, aimX, aimY, face }: SetLight): boolean {
  const mm = (widths: number) => widths * WIDTH_MM;
  const lamp = plainLamp({
    ...{ xMm: mm(x), yMm: mm(y), distanceMm: mm(distance), aimXMm: mm(aimX), aimYMm: mm(aimY) },
    face:
      face.kind === 'disc'
        ? { kind: 'disc', diameterMm: mm(2 * face.radius) }
        : { kind: 'rectangle', widthMm: mm(face.width), heightMm: mm(face.height) },
  });
  return isInShot(WALL, lamp);
}

test('a light that is out of shot is never in the studio’s picture, and one whose middle is in it always', () => {
  const { between, chance } = drawsFrom(seededRandom(4));
  const counts = { out: 0, seen: 0, spared: 0 };
  for (let i = 0; i < 2000; i++) {
    const size = between(0.02, 0.6);
    const light = lightOf({
      ...{ x: between(-0.8, 0.8), y: between(-0.6, 0.6), distance: between(0.2, 2.8) },
      ...{ aimX: between(-1, 1), aimY: between(-0.6, 0.6) },
      face: chance(0.5)
        ? { kind: 'disc', radius: size / 2 }
        : { kind: 'rectangle', width: size, height: between(0.02, 0.6) },
    });
    const { face } = light;
    const reach = face.kind === 'disc' ? face.radius : Math.hypot(face.width, face.height) / 2;
    const farOut = outOfShot(SET, light);
    const isOut = farOut >= 0;
    const seen = isSeen(light);
    const about = `light ${i}: ${JSON.stringify(light)}`;
    if (isOut) expect(seen, about).toBe(false);
    if (farOut + reach + CLEARANCE < 0) expect(seen, about).toBe(true);
    counts[isOut ? 'out' : seen ? 'seen' : 'spared']++;
  }
  console.log(
    `measured: of 2000 lights ${counts.out} out of shot, ${counts.seen} in it, ${counts.spared} not sure of it`,
  );
  expect(counts.out).toBeGreaterThan(800);
  expect(counts.seen).toBeGreaterThan(300);
  // what clearance and the face's turning ask for beyond the picture is a margin, no ban
  expect(counts.spared).toBeLessThan(0.3 * 2000);
});

test('goes by how far the face’s rim is from the picture, which narrows towards the lens', () => {
  // half way to the lens the picture is half as wide and high as the frame
  const half = { distance: SET.cameraDistance / 2, face: { kind: 'disc', radius: 0.1 } } as const;
  expectWithin(out({ ...half, x: 0.6 }), 0.6 - 0.25 - 0.1 - CLEARANCE, 1e-12);
  expectWithin(out({ ...half, x: -0.6 }), 0.2, 1e-12);
  expectWithin(out({ ...half, y: 0.5 }), 0.5 - 1 / 6 - 0.15, 1e-12);
  expectWithin(out({ ...half, x: 0.2, y: 0.1 }), -0.05 - 0.15, 1e-12);
  // a rectangle by its corners
  const face = { kind: 'rectangle', width: 0.12, height: 0.16 } as const;
  expectWithin(out({ ...half, face, x: 0.6 }), 0.2, 1e-12);
});

test('beyond the camera nothing is in its way, behind a sheet never', () => {
  const far = SET.cameraDistance + 0.2;
  expect(out({ distance: far })).toBeGreaterThan(0);
  expect(out({ distance: far, face: { kind: 'disc', radius: 0.2 } })).toBeLessThan(0);
  const sheet = { ...SET, sheet: { forwardShare: 0, lobeRad: 0.4 } };
  for (const distance of [0.05, 1, 2.4]) expect(out({ distance }, sheet)).toBe(Number.POSITIVE_INFINITY);
});
