import { describe, expect, test } from 'vitest';
import { type StoppedLight, stoppedLights } from '../../../src/engine/moves/stopped-lights.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { setBack, slid, tighter } from './some-moves.ts';

const SETUP = { ...UNKNOWN_SETUP, arrangement: 'two-lamps' } as const;
const ANYWHERE = Number.POSITIVE_INFINITY;
const FREE = { left: ANYWHERE, right: ANYWHERE, up: ANYWHERE, down: ANYWHERE, farther: ANYWHERE };

/** A slide told in frame widths, as where no length was entered. */
const way = (lamp: number, rightFrameWidths: number, downFrameWidths = 0) => ({
  ...slid(lamp),
  ...{ rightMm: null, downMm: null, rightFrameWidths, downFrameWidths },
});
const round = (advised: Parameters<typeof stoppedLights>[0][number]['done'], done = advised) => ({
  ...{ setup: SETUP, advised, done },
});

describe('stoppedLights(takes, lights)', () => {
  test('no wall is known where all was done as advised, nearly, or not at all', () => {
    expect(stoppedLights([], 2)).toEqual([FREE, FREE]);
    expect(stoppedLights([round([way(0, 0.5), setBack(1, 1.5), tighter])], 2)).toEqual([FREE, FREE]);
    expect(stoppedLights([round([way(0, 0.5)], [way(0, 0.47)])], 2)).toEqual([FREE, FREE]);
    expect(stoppedLights([round([way(0, 0.5), setBack(1, 1.5)], [])], 2)).toEqual([FREE, FREE]);
  });

  test.each([
    ['right', way(0, 0.5), way(0, 0.2), { ...FREE, right: 0 }],
    ['left', way(0, -0.5), way(0, -0.2), { ...FREE, left: 0 }],
    ['down', way(0, 0, 0.5), way(0, 0, 0.2), { ...FREE, down: 0 }],
    ['up', way(0, 0, -0.5), way(0, 0, -0.2), { ...FREE, up: 0 }],
    ['farther', setBack(0, 1.8), setBack(0, 1.4), { ...FREE, farther: 1 }],
  ] as const)('a light that went less far %s than advised stands at a wall', (_, advised, done, wall) => {
    expect(stoppedLights([round([advised], [done])], 2)).toEqual([wall, FREE]);
  });

  test('a wall stays where it is when the light moves on', () => {
    const met = round([way(0, 0.5), setBack(0, 1.8)], [way(0, 0.2), setBack(0, 1.4)]);
    const away = round([way(0, -0.3), setBack(0, 0.7)]);
    const [first] = stoppedLights([met, away], 2) as [StoppedLight, StoppedLight];
    expectWithin(first.right, 0.3, 1e-12);
    expectWithin(first.farther, 1 / 0.7, 1e-12);
    expect(first.left).toBe(ANYWHERE);
  });

  test('a short answer to a short way tells nothing', () => {
    expect(
      stoppedLights([round([way(0, 0.02), setBack(0, 1.02)], [way(0, 0.005), setBack(0, 1.01)])], 2),
    ).toEqual([FREE, FREE]);
  });
});
