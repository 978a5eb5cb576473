import { describe, expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { EVEN_SET } from '../studio/even-set.ts';
import { plainLamp, type StudioLamp, type StudioSet } from '../studio/studio-set.ts';
import { drawsFrom } from './draws.ts';
import { randomStudio } from './random-studio.ts';
import { isInShot, staysInRoom } from './within-room.ts';

// the frame is 600 × 400, the lens 1500 off: half way of it, 750 off, what is in shot is 300 × 200
const wall: StudioSet = { ...EVEN_SET, background: { kind: 'wall' } };
const DOT = { kind: 'disc', diameterMm: 0.1 } as const;
const inShot = (changes: Partial<StudioLamp>, set = wall) =>
  isInShot(set, plainLamp({ distanceMm: 750, face: DOT, ...changes }));

describe('staysInRoom(set, room)', () => {
  const room = { leftMm: 800, rightMm: 500, upMm: 300, downMm: 200, reachMm: 1200 };
  const stays = (changes: Partial<StudioLamp>, within: Parameters<typeof staysInRoom>[1] = room) =>
    staysInRoom({ lamps: [plainLamp({}), plainLamp(changes)] }, within);

  test('holds for lights up to where the room ends, and for none beyond it', () => {
    for (const [figure, last, beyond] of [
      ['xMm', -800, -801],
      ['xMm', 500, 501],
      ['yMm', -300, -301],
      ['yMm', 200, 201],
      ['distanceMm', 1200, 1201],
    ] as const) {
      expect(stays({ [figure]: last }), `${figure} ${last}`).toBe(true);
      expect(stays({ [figure]: beyond }), `${figure} ${beyond}`).toBe(false);
    }
    expect(stays({ distanceMm: 0 })).toBe(false);
  });

  test('knows no bound where none is told, and no light that could leave where there is none', () => {
    const unknown = { leftMm: null, rightMm: null, upMm: null, downMm: null, reachMm: null };
    expect(stays({ xMm: 9000, yMm: -9000, distanceMm: 9000 }, unknown)).toBe(true);
    expect(stays({ xMm: 9000 }, { ...unknown, leftMm: 100 })).toBe(true);
    expect(staysInRoom({ lamps: [] }, room)).toBe(true);
  });
});

test('drawn studios keep their lights in the room that is entered', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const { set, setup } = randomStudio(seed, seed % 2 ? 'two-lamps' : 'bounced');
    expect(staysInRoom(set, setup.room), `seed ${seed}`).toBe(true);
  }
});

describe('isInShot(set, lamp)', () => {
  test('goes by similar triangles for a small light', () => {
    expect(inShot({})).toBe(true);
    for (const side of [-1, 1]) {
      expect(inShot({ xMm: side * 149 })).toBe(true);
      expect(inShot({ xMm: side * 151 })).toBe(false);
      expect(inShot({ yMm: side * 99 })).toBe(true);
      expect(inShot({ yMm: side * 101 })).toBe(false);
    }
    expect(inShot({ xMm: 59, distanceMm: 1200 })).toBe(true);
    expect(inShot({ xMm: 61, distanceMm: 1200 })).toBe(false);
  });

  test('leaves out what stands behind the lens, or behind a sheet', () => {
    expect(inShot({ distanceMm: 1490 })).toBe(true);
    for (const distanceMm of [1501, 2500]) expect(inShot({ distanceMm })).toBe(false);
    const sheet = { ...wall, background: { kind: 'sheet', forwardShare: 0, lobeDeg: 25 } } as const;
    for (const distanceMm of [50, 750, 1490]) expect(inShot({ distanceMm }, sheet)).toBe(false);
  });

  test('counts what a face reaches, not its middle alone', () => {
    const disc = { kind: 'disc', diameterMm: 100 } as const;
    expect(inShot({ xMm: 199, face: disc })).toBe(true);
    expect(inShot({ xMm: 201, face: disc })).toBe(false);
    // turned square to the wall's normal it reaches from 700 to 800 off: where it is nearer the wall, 160 is in shot
    expect(inShot({ xMm: 159, aimXMm: 1e7, face: disc })).toBe(true);
    expect(inShot({ xMm: 161, aimXMm: 1e7, face: disc })).toBe(false);
    // a face all round the shot has no corner in it
    const large = { kind: 'rectangle', widthMm: 4000, heightMm: 4000 } as const;
    expect(inShot({ face: large })).toBe(true);
    // beside a corner of the shot a disc keeps clear where a square of its size does not
    const beside = { xMm: 150 + 40, yMm: 100 + 40 };
    expect(inShot({ ...beside, face: disc })).toBe(false);
    expect(inShot({ ...beside, face: { kind: 'rectangle', widthMm: 100, heightMm: 100 } })).toBe(true);
  });

  test('goes with the camera that is slid', () => {
    const slid = { ...wall, cameraRightMm: 400 };
    expect(inShot({}, slid)).toBe(false);
    expect(inShot({ xMm: 251 }, slid)).toBe(true);
    expect(inShot({ xMm: 249 }, slid)).toBe(false);
  });

  test('agrees with looking at many points of the face', () => {
    const { between, chance } = drawsFrom(seededRandom(11));
    let [seen, hidden] = [0, 0];
    for (let i = 0; i < 400; i++) {
      const acrossMm = between(50, 500);
      const lamp = (scale: number): StudioLamp => ({
        ...drawn,
        face:
          face.kind === 'disc'
            ? { kind: 'disc', diameterMm: scale * face.diameterMm }
            : { kind: 'rectangle', widthMm: scale * face.widthMm, heightMm: scale * face.heightMm },
      });
      const face: StudioLamp['face'] = chance(0.5)
        ? { kind: 'disc', diameterMm: acrossMm }
        : { kind: 'rectangle', widthMm: acrossMm, heightMm: acrossMm * between(0.5, 2) };
      const drawn = plainLamp({
        xMm: between(-450, 450),
        yMm: between(-300, 300),
        distanceMm: between(200, 1800),
        aimXMm: between(-800, 800),
        aimYMm: between(-500, 500),
      });
      if (anyPointInShot(lamp(0.97))) {
        expect(isInShot(wall, lamp(1)), `light ${i}`).toBe(true);
        seen++;
      } else if (!anyPointInShot(lamp(1.06))) {
        expect(isInShot(wall, lamp(1)), `light ${i}`).toBe(false);
        hidden++;
      }
    }
    console.log(`measured: ${seen} lights in shot and ${hidden} out of it, of 400; the rest too near to say`);
    expect(seen).toBeGreaterThan(80);
    expect(hidden).toBeGreaterThan(80);
  });
});

/** Whether a straight line from the lens over any of 81 × 81 spots of the face meets the frame. */
function anyPointInShot({ xMm, yMm, distanceMm, aimXMm, aimYMm, face }: StudioLamp): boolean {
  const yaw = Math.atan2(aimXMm - xMm, distanceMm);
  const pitch = Math.atan2(aimYMm - yMm, Math.hypot(aimXMm - xMm, distanceMm));
  const [halfRight, halfDown] =
    face.kind === 'disc' ? [face.diameterMm / 2, face.diameterMm / 2] : [face.widthMm / 2, face.heightMm / 2];
  for (let i = -40; i <= 40; i++)
    for (let j = -40; j <= 40; j++) {
      if (face.kind === 'disc' && Math.hypot(i, j) > 40) continue;
      const [right, down] = [(i / 40) * halfRight, (j / 40) * halfDown];
      // down is tipped by the pitch away from the wall or to it, then both are turned by the yaw
      const [tipped, back] = [down * Math.cos(pitch), down * Math.sin(pitch)];
      const x = xMm + right * Math.cos(yaw) - back * Math.sin(yaw);
      const y = yMm + tipped;
      const z = distanceMm + right * Math.sin(yaw) + back * Math.cos(yaw);
      if (z <= 0 || z >= wall.cameraDistanceMm) continue;
      const toFrame = wall.cameraDistanceMm / (wall.cameraDistanceMm - z);
      if (Math.abs(x * toFrame) < 300 && Math.abs(y * toFrame) < 200) return true;
    }
  return false;
}
