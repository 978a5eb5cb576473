import { describe, expect, test } from 'vitest';
import { findings } from '../../../src/engine/diagnosis/findings.ts';
import { judge } from '../../../src/engine/diagnosis/verdict.ts';
import { within } from '../../../src/engine/diagnosis/within.ts';
import type { Move } from '../../../src/engine/moves/move.ts';
import { plainMoves } from '../../../src/engine/moves/plain-moves.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { diagnosisOf } from '../diagnosis/measurement-of.ts';

type Field = Parameters<typeof diagnosisOf>[0];

function movesFor(field: Field, setup: Partial<Setup> = {}): Move[] {
  const input = diagnosisOf(field, { setup: { ...UNKNOWN_SETUP, ...setup } });
  const { measurement, tolerance, grid } = input;
  return plainMoves({
    ...input,
    findings: findings(input),
    within: within({ ...grid, evMap: measurement.falloff.evMap }, tolerance),
    verdict: judge(measurement, tolerance, grid),
  });
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
