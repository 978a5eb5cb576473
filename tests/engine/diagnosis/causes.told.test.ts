import { describe, expect, test } from 'vitest';
import { causes, explains } from '../../../src/engine/diagnosis/causes.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { diagnosisOf } from './measurement-of.ts';
import { about, foundLight, setReadingOf, shareOf } from './set-reading-of.ts';

/** Causes told of a frame with a spread of 0.8 stop and of 0.003 u′v′. */
function told(set: Partial<SetReading> | null, setup: Partial<Setup> = {}) {
  const field = { ev: (x: number) => 0.8 * x, tint: { spreadDeltaUv: 0.003 } };
  const input = diagnosisOf(field, { setup: { ...UNKNOWN_SETUP, ...setup } });
  return causes({ ...input, set: set && setReadingOf(set) });
}
const kinds = (set: Partial<SetReading> | null) => told(set).map(({ kind }) => kind);

describe('causes(input)', () => {
  test('are told where they are likelier than not and take a quarter of the tolerance', () => {
    expect(
      kinds({
        causes: [
          shareOf('lens-falloff', { ev: 0.1 }),
          shareOf('off-centre', { ev: 0.5 }),
          shareOf('too-close', { ev: 0.07 }), // of 0.3
          shareOf('aimed-off', { ev: 0.3, confidence: 0.45 }),
          shareOf('hot-spot', { ev: 0.2 }),
        ],
      }),
    ).toEqual(['lens-falloff', 'off-centre', 'hot-spot']);
  });

  test('of colour are told for their colour alone, others are not', () => {
    const tint = { mired: 8, towardDeg: 0 };
    const coloured = { ev: 0, deltaUv: 0.0013 }; // a quarter of 0.0047 is 0.0012
    expect(kinds({ tint, causes: [shareOf('tinted-on-one-side', coloured)] })).toEqual([
      'tinted-on-one-side',
    ]);
    expect(kinds({ tint, causes: [shareOf('tinted-on-one-side', { ev: 0, deltaUv: 0.001 })] })).toEqual([]);
    expect(kinds({ causes: [shareOf('lens-colour', coloured)] })).toEqual(['lens-colour']);
    expect(kinds({ causes: [shareOf('off-centre', coloured)] })).toEqual([]);
  });

  test('that are told as not to be told apart are not told by themselves', () => {
    const set = setReadingOf({
      causes: [shareOf('lens-falloff'), shareOf('too-close'), shareOf('off-centre', { ev: 0.2 })],
    });
    const input = diagnosisOf({ ev: (x: number) => 0.8 * x }, { setup: UNKNOWN_SETUP });
    const untold = new Set(['lens-falloff', 'too-close'] as const);
    expect(causes({ ...input, set }, untold).map(({ kind }) => kind)).toEqual(['off-centre']);
  });

  test('spill is told only where the frames tell it from the lights', () => {
    const spill = { share: about(0.1, 0.01), mired: about(60), fromDeg: 0 };
    const share = [shareOf('stray-light', { deltaUv: 0.004 })];
    expect(kinds({ spill, causes: share, isSpillTold: true })).toEqual(['stray-light']);
    expect(kinds({ spill, causes: share, isSpillTold: false })).toEqual([]);
  });

  test('are not told without a set; one explains its frame where it leaves over less than a sixteenth', () => {
    expect(kinds(null)).toEqual([]);
    const { measurement } = diagnosisOf({ ev: (x: number) => 0.8 * x, tint: { spreadDeltaUv: 0.003 } });
    const does = (set: Partial<SetReading>) => explains(setReadingOf(set), measurement);
    // 0.06 of 0.8 stop, 0.08 of 0.003 u′v′
    expect(does({ leftOverEv: 0.045, leftOverUv: 0.00023 })).toBe(true);
    expect(does({ leftOverEv: 0.055 })).toBe(false);
    expect(does({ leftOverUv: 0.00026 })).toBe(false);
  });

  test('say where to look', () => {
    const at = (set: Partial<SetReading>) => told(set)[0]!.at;
    const left = foundLight({ right: about(-0.3), down: about(0.1), aimRight: 0.2, aimDown: -0.1 });
    const right = foundLight({ right: about(0.25) });
    expect(at({ lights: [left], causes: [shareOf('off-centre')] })).toEqual({
      x: 0.2,
      y: expect.closeTo(0.65, 9),
    });
    expect(at({ lights: [left], causes: [shareOf('aimed-off')] })).toEqual({
      x: 0.7,
      y: expect.closeTo(0.35, 9),
    });
    const balance = { ev: about(-0.4), mired: about(0) };
    expect(at({ lights: [left, right], balance, causes: [shareOf('unequal-lamps')] })).toEqual({
      x: 0.75,
      y: 0.5,
    });
    const far = foundLight({ right: about(2) });
    expect(at({ lights: [far], causes: [shareOf('off-centre')] })).toEqual({ x: 1, y: 0.5 });
    expect(at({ causes: [shareOf('lens-falloff')] })).toBeNull();
    const spill = { share: about(0.1, 0.01), mired: about(60), fromDeg: 180 };
    expect(at({ spill, isSpillTold: true, causes: [shareOf('stray-light')] })).toEqual({
      x: 0,
      y: expect.closeTo(0.5, 9),
    });
  });

  test('carry their warmth in mired where they are of colour', () => {
    const set = {
      spill: { share: about(0.1, 0.01), mired: about(-70), fromDeg: 0 },
      balance: { ev: about(0.2), mired: about(-12) },
      tint: { mired: 9, towardDeg: 180 },
      lensCornerMired: about(-3),
      isSpillTold: true,
    };
    for (const [cause, mired] of [
      ['stray-light', 70],
      ['unequal-colour', 12],
      ['tinted-on-one-side', 9],
      ['lens-colour', 3],
      ['off-centre', null],
    ] as const)
      expect(told({ ...set, causes: [shareOf(cause)] })[0]!.mired, cause).toBe(mired);
  });
});
