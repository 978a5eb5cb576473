import { describe, expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import { plainMoves } from '../../../src/engine/moves/plain-moves.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { type Field, movesInputOf } from './moves-input-of.ts';

function movesFor(field: Field, setup: Partial<Setup> = {}): Move[] {
  return plainMoves(movesInputOf(field, setup));
}

const slides = (moves: readonly Move[]) =>
  moves.flatMap((move) =>
    move.kind === 'slide-lamp' ? [{ lamp: move.lamp, toward: Math.round(move.toward!) }] : [],
  );

const kinds = (moves: readonly Move[]) => moves.map(({ kind }) => kind);

/** Brighter toward the angle, by this many stops over the corners of a 3 : 2 frame. */
function ramp(angleDeg: number, ev: number) {
  const right = Math.cos((angleDeg * Math.PI) / 180) * 1.5;
  const down = Math.sin((angleDeg * Math.PI) / 180);
  const perUnit = ev / (Math.abs(right) + Math.abs(down));
  return (x: number, y: number) => perUnit * (right * x + down * y);
}

const bowl = (drop: number) => (x: number, y: number) => -drop * 2 * ((x - 0.5) ** 2 + (y - 0.5) ** 2);

describe('plainMoves(input)', () => {
  test('leaves an even, neutral, well exposed frame alone, whatever the arrangement', () => {
    for (const arrangement of ['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const)
      expect(movesFor({ ev: (x) => 0.1 * x }, { arrangement })).toEqual([]);
  });

  test('slides the one lamp toward the darker side, lengths unknown', () => {
    for (const arrangement of ['behind-sheet', 'bounced'] as const) {
      const moves = movesFor({ ev: ramp(30, 0.8) }, { arrangement });
      expect(slides(moves)).toEqual([{ lamp: 0, toward: 210 }]);
      expect(moves[0]).toMatchObject({ rightMm: null, downFrameWidths: null, bringsEv: null });
    }
  });

  test('slides the lamp at the brighter side outward where two lamps make a slope across', () => {
    expect(slides(movesFor({ ev: ramp(0, 0.8) }, { arrangement: 'two-lamps' }))).toEqual([
      { lamp: 1, toward: 0 },
    ]);
    expect(slides(movesFor({ ev: ramp(180, 0.8) }, { arrangement: 'two-lamps' }))).toEqual([
      { lamp: 0, toward: 180 },
    ]);
    // a little off the horizontal counts as across
    expect(slides(movesFor({ ev: ramp(15, 0.8) }, { arrangement: 'two-lamps' }))).toEqual([
      { lamp: 1, toward: 0 },
    ]);
  });

  test('slides both lamps toward the darker side of a slope up or down', () => {
    expect(slides(movesFor({ ev: ramp(90, 0.8) }, { arrangement: 'two-lamps' }))).toEqual([
      { lamp: 0, toward: 270 },
      { lamp: 1, toward: 270 },
    ]);
  });

  test('does both where two lamps make a slope aslant', () => {
    // brighter at the lower right: both go up, the right one outward too
    expect(slides(movesFor({ ev: ramp(45, 0.8) }, { arrangement: 'two-lamps' }))).toEqual([
      { lamp: 0, toward: 270 },
      { lamp: 1, toward: 315 },
    ]);
  });

  test('moves no lamp where the direction is uncertain', () => {
    const uncertain: Partial<Field['gradient']>[] = [
      { angleDeg: null },
      { plusMinusDeg: null },
      { plusMinusDeg: 31 },
      { plusMinusEv: 0.9 },
    ];
    for (const gradient of uncertain)
      expect(slides(movesFor({ ev: ramp(30, 0.8), gradient: gradient! }))).toEqual([]);
  });

  test('moves no lamp where the slope hardly explains the falloff', () => {
    const steps = (x: number, y: number) => 0.02 * x + (Math.hypot(x - 0.5, y - 0.5) < 0.2 ? 0.4 : 0);
    expect(slides(movesFor({ ev: steps, gradient: { plusMinusEv: 0.03 } }))).toEqual([]);
    expect(slides(movesFor({ ev: ramp(0, 0.8), gradient: { explains: 0.19 } }))).toEqual([]);
  });

  test('takes the lamp farther away from a bright middle, both of two', () => {
    expect(movesFor({ ev: bowl(0.8) })[0]).toMatchObject({ kind: 'lamp-distance', lamp: 0, ratio: null });
    expect(kinds(movesFor({ ev: bowl(0.8) }, { arrangement: 'two-lamps' }))).toEqual([
      'lamp-distance',
      'lamp-distance',
      'frame-tighter',
    ]);
  });

  test('takes only the brighter side’s lamp away where two lamps make a slope across as well', () => {
    for (const [angleDeg, brighter] of [
      [0, 1],
      [180, 0],
    ] as const) {
      const ev = (x: number, y: number) => bowl(0.9)(x, y) + ramp(angleDeg, 0.4)(x, y);
      const moved = movesFor({ ev }, { arrangement: 'two-lamps' }).flatMap((move) =>
        'lamp' in move ? [[move.kind, move.lamp]] : [],
      );
      expect(moved).toContainEqual(['lamp-distance', brighter]);
      expect(moved.some(([, lamp]) => lamp !== brighter)).toBe(false);
    }
  });

  describe('where the colour changes along the slope', () => {
    /** 0.24 stop and 19 mired brighter and warmer toward the top, as a light of some 3000 K there makes it. */
    const spill: Field = {
      ev: (x, y) => bowl(0.3)(x, y) + ramp(270, 0.24)(x, y),
      gradient: { mired: 19, plusMinusMired: 0.1, explains: 0.5 },
      tintGradient: { angleDeg: 268, deltaUv: 0.008, mired: 19, duv: 0 },
      tint: { spreadDeltaUv: 0.0057, plusMinusDeltaUv: 0.0001 },
      cast: { deltaUv: 0.009, mired: 19, duv: -0.002 },
    };
    const lampsTouched = (moves: readonly Move[]) => moves.filter((move) => 'lamp' in move);

    test('puts out the light that comes from the brighter, tinted side, and moves no lamp for it', () => {
      const moves = movesFor(spill);
      expect(kinds(moves)).toEqual(['block-stray', 'frame-tighter']);
      expect(moves[0]).toMatchObject({ fromDeg: 270, bringsEv: null, toward: null });
      expect(moves[0]!.caution).toMatch(/flag.*clearance.*Local rules/);
    });

    test('sets no white balance where the cast is not the same all over, beyond its ±', () => {
      const tint = { spreadDeltaUv: 0.0057, plusMinusDeltaUv: 0.0001 };
      const cast = { deltaUv: 0.009, mired: 19, duv: -0.002 };
      expect(kinds(movesFor({ ev: () => 0, cast, tint }))).toEqual([]);
      expect(kinds(movesFor({ ev: () => 0, cast, tint: { ...tint, plusMinusDeltaUv: 0.002 } }))).toEqual([
        'white-balance',
      ]);
      expect(kinds(movesFor({ ev: () => 0, cast, tint: { ...tint, spreadDeltaUv: 0.004 } }))).toEqual([
        'white-balance',
      ]);
    });

    test('names no light to put out where anything else may be behind it', () => {
      const doubts: Record<string, [Partial<Field>, Partial<Setup>?]> = {
        'two lamps of different colour': [{}, { arrangement: 'two-lamps' }],
        'a panel’s own parts': [{}, { arrangement: 'panel' }],
        'a tint within tolerance': [{ tint: { spreadDeltaUv: 0.0045 } }],
        'colour along another line': [{ tintGradient: { ...spill.tintGradient!, angleDeg: 290 } }],
        'a yellowed sheet, dark where it is warm': [{ gradient: { ...spill.gradient, mired: -19 } }],
        'a white balance set on the mixture': [{ cast: { ...spill.cast, mired: -2 } }],
        'a colour no room’s light has': [{ gradient: { ...spill.gradient, mired: 120 } }],
        'no sure direction': [{ gradient: { ...spill.gradient, plusMinusDeg: 40 } }],
      };
      for (const [doubt, [field, setup]] of Object.entries(doubts))
        expect(kinds(movesFor({ ...spill, ...field }, setup)), doubt).not.toContain('block-stray');
    });

    test('moves the lamp where the slope is its own: too much light for so little colour', () => {
      const own = { ...spill, ev: ramp(270, 1.4), gradient: { mired: 11, plusMinusMired: 0.1 } };
      const moves = movesFor({ ...own, tintGradient: { ...spill.tintGradient!, mired: 11 } });
      expect(slides(moves)).toEqual([{ lamp: 0, toward: 90 }]);
      expect(kinds(moves)).not.toContain('block-stray');
      // without colour, however small the slope
      expect(lampsTouched(movesFor({ ev: spill.ev })).length).toBeGreaterThan(0);
    });
  });

  test('adds diffusion where the lamp cannot go back, and for a panel', () => {
    const room = { ...UNKNOWN_SETUP.room, reachMm: 1500 };
    expect(kinds(movesFor({ ev: bowl(0.8) }, { lampDistanceMm: [1500], room }))[0]).toBe('add-diffusion');
    expect(kinds(movesFor({ ev: bowl(0.8) }, { lampDistanceMm: [900], room }))[0]).toBe('lamp-distance');
    expect(kinds(movesFor({ ev: bowl(0.8) }, { arrangement: 'panel' }))).toEqual([
      'add-diffusion',
      'frame-tighter',
    ]);
  });

  test('only frames tighter where a panel slopes', () => {
    expect(kinds(movesFor({ ev: ramp(0, 0.8) }, { arrangement: 'panel' }))).toEqual(['frame-tighter']);
  });

  test('frames the part that is even enough and says what that brings', () => {
    const move = movesFor({ ev: ramp(0, 0.8) }, { arrangement: 'panel' })[0]!;
    if (move.kind !== 'frame-tighter') throw new Error(`${move.kind} came instead`);
    // 18 of 48 columns, 0.8 stop over 48, differ by 17/48 × 0.8 = 0.283; all 48 by 47/48 × 0.8
    expectWithin(move.right - move.left, 18 / 48 + 1 / 96, 1 / 90);
    expectWithin(move.bringsEv!, (0.8 * (47 - 17)) / 48, 0.02);
  });

  test('frames tighter to no crop under a quarter, nor claims what clipping hides', () => {
    const steep = movesFor({ ev: ramp(0, 5) }, { arrangement: 'panel' });
    expect(kinds(steep)).toEqual([]);
    const highlight = (x: number) => (x > 0.9 ? 1 : 0);
    const field = { ev: ramp(0, 0.8), highlight, highlightShare: 0.1, falloff: { isLowerBound: true } };
    const move = movesFor(field, { arrangement: 'panel' }).find(({ kind }) => kind === 'frame-tighter');
    if (move?.kind !== 'frame-tighter') throw new Error('no tighter frame');
    expect(move.right).toBeLessThanOrEqual(0.91);
    expect(move.bringsEv).toBeNull();
  });

  test('shifts the white balance by minus the cast', () => {
    const cast = { deltaUv: 0.01, mired: 21, duv: -0.002 };
    expect(movesFor({ ev: () => 0, cast })).toEqual([
      {
        kind: 'white-balance',
        miredShift: -21,
        duvShift: 0.002,
        bringsEv: null,
        toward: null,
        caution: null,
      },
    ]);
  });

  test('leaves a cast alone that is within tolerance, within its ±, or no colour temperature', () => {
    const cast = { deltaUv: 0.01, mired: 21, duv: -0.002 };
    for (const change of [{ deltaUv: 0.004 }, { plusMinusDeltaUv: 0.02 }, { mired: null, duv: null }])
      expect(kinds(movesFor({ ev: () => 0, cast: { ...cast, ...change } }))).toEqual([]);
  });

  test('exposes a clipped frame so that the peak it can foresee lies a stop below clipping', () => {
    // A bowl whose middle would reach 0.6 stop above the clip level.
    const highlight = (x: number, y: number) => (0.6 + bowl(2)(x, y) > 0 ? 1 : 0);
    const field = {
      ev: bowl(2),
      level: 2 ** 0.6,
      highlight,
      highlightShare: 0.4,
      falloff: { isLowerBound: true },
    };
    const [move] = movesFor(field);
    if (move?.kind !== 'expose') throw new Error(`${move?.kind} came instead`);
    expectWithin(move.stops, -1.6, 0.02);
  });

  test('exposes a frame that is too dark up to a stop below clipping', () => {
    const [move] = movesFor({ ev: () => 0, level: 0.5 / 256, scatter: 0.02 });
    if (move?.kind !== 'expose') throw new Error(`${move?.kind} came instead`);
    expectWithin(move.stops, 8, 1e-9);
  });

  test('goes in the order of doing', () => {
    const field: Field = {
      ev: (x, y) => bowl(1.2)(x, y) + 0.5 * x,
      cast: { deltaUv: 0.02, mired: 40, duv: 0 },
      highlightShare: 0.02,
      highlight: (x, y) => (Math.hypot(x - 0.6, y - 0.5) < 0.06 ? 1 : 0),
    };
    expect(kinds(movesFor(field))).toEqual([
      'expose',
      'slide-lamp',
      'lamp-distance',
      'white-balance',
      'frame-tighter',
    ]);
  });

  test('warns of stands, leads, heat and eyes where heads are touched, and of nothing else', () => {
    const cautions = (light: Setup['light']) => movesFor({ ev: ramp(0, 0.8) }, { light })[0]!.caution!;
    for (const light of ['flash', 'continuous', null] as const) {
      expect(cautions(light)).toContain('Weight the stand');
      expect(cautions(light)).toContain('Local rules');
    }
    expect(cautions('continuous')).toContain('cool');
    expect(cautions('continuous')).not.toContain('eyes');
    expect(cautions('flash')).toContain('eyes');
    expect(cautions(null)).toContain('cool');
    const diffusion = movesFor({ ev: bowl(0.8) }, { arrangement: 'panel', light: 'continuous' });
    expect(diffusion[0]!.caution).toContain('clearance');
    expect(diffusion[1]!.caution).toBeNull();
  });
});
