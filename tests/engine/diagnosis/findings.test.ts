import { describe, expect, test } from 'vitest';
import { findings } from '../../../src/engine/diagnosis/findings.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { expectWithin } from '../../expect-within.ts';
import { diagnosisOf } from './measurement-of.ts';

const kinds = (field: Parameters<typeof diagnosisOf>[0]) =>
  findings(diagnosisOf(field)).map(({ kind }) => kind);

/** A parabola of the given drop from the middle to each corner. */
const bowl =
  (drop: number, x0 = 0.5, y0 = 0.5) =>
  (x: number, y: number) =>
    -drop * 2 * ((x - x0) ** 2 + (y - y0) ** 2);

describe('findings(input)', () => {
  test('finds nothing in an even, neutral, well exposed frame', () => {
    expect(kinds({ ev: () => 0 })).toEqual([]);
  });

  test('finds a slope, what it explains and which side is down', () => {
    const [found, ...others] = findings(diagnosisOf({ ev: (x) => 0.8 * x }));
    expect(others).toEqual([]);
    expect(found!.kind).toBe('slope');
    // 47 of 48 columns' distance lie between the outermost cells' centres
    expectWithin(found!.ev!, (0.8 * 47) / 48, 1e-9);
    expect(found!.says).toBe('The left is down by 0.8 stop against the right.');
    expectWithin(found!.at!.x, 0, 1e-9);
    expect(found!.confidence).toBeGreaterThan(0.999);
  });

  test('says the colour of a slope where it exceeds its ±, seen from the darker side', () => {
    const field = { ev: (x: number, y: number) => -0.6 * x - 0.4 * y };
    const warm = findings(diagnosisOf({ ...field, gradient: { mired: 9, plusMinusMired: 1 } }))[0]!;
    expect(warm.says).toBe(
      'The bottom right is down by 1.0 stop against the top left and cooler by 9 mired (about 290 K at 5500 K).',
    );
    expect(warm.mired).toBe(9);
    const unsure = findings(diagnosisOf({ ...field, gradient: { mired: 9, plusMinusMired: 10 } }))[0]!;
    expect(unsure.says).not.toContain('mired');
    expect(unsure.mired).toBeNull();
  });

  test('finds no slope where its fall in spread is within its ±', () => {
    expect(kinds({ ev: (x) => 0.8 * x, gradient: { plusMinusEv: 0.79 } })).toEqual([]);
    expect(kinds({ ev: (x) => 0.8 * x, gradient: { angleDeg: null } })).toEqual([]);
  });

  test('finds a bright middle and what it explains', () => {
    const [found, ...others] = findings(diagnosisOf({ ev: bowl(0.7) }));
    expect(others).toEqual([]);
    expect(found!.kind).toBe('bright-middle');
    const cornerCell = 2 * 0.7 * ((0.5 - 0.5 / 48) ** 2 + (0.5 - 0.5 / 32) ** 2);
    const middleCell = 2 * 0.7 * ((0.5 / 48) ** 2 + (0.5 / 32) ** 2);
    expectWithin(found!.ev!, cornerCell - middleCell, 1e-9);
    expect(found!.says).toBe(
      'The middle is hottest and the rim is down all round, the corners by about 0.7 stop.',
    );
    expectWithin(found!.at!.x, 0.5, 0.02);
  });

  test('finds a bright middle under a lamp off centre as well as the slope it makes', () => {
    expect(kinds({ ev: bowl(0.9, 0.35, 0.5) })).toEqual(['bright-middle', 'slope']);
  });

  test('finds no bright middle in a valley, a dark middle or a ridge', () => {
    for (const ev of [
      (x: number, y: number) => (x - 0.5) ** 2 - (y - 0.5) ** 2,
      (x: number, y: number) => (x - 0.5) ** 2 + (y - 0.5) ** 2,
      (x: number) => -2 * (x - 0.5) ** 2,
    ])
      expect(kinds({ ev })).not.toContain('bright-middle');
  });

  test('finds no bright middle in a map too rough to show it', () => {
    const rough = (x: number, y: number) => bowl(0.05)(x, y) + 0.3 * Math.sin(40 * x) * Math.sin(31 * y);
    expect(kinds({ ev: rough })).not.toContain('bright-middle');
  });

  test('finds a cast beyond its ±, in the words of the trade', () => {
    const cast = { deltaUv: 0.006, mired: 12, duv: -0.002 };
    const [found] = findings(diagnosisOf({ ev: () => 0, cast }));
    expect(found!.kind).toBe('cast');
    expect(found!.mired).toBe(12);
    expect(found!.ev).toBeNull();
    expect(found!.says).toBe(
      'The whole frame is warmer by 12 mired (about 340 K at 5500 K) and slightly more magenta, against white.',
    );
    expect(kinds({ ev: () => 0, cast: { ...cast, plusMinusDeltaUv: 0.007 } })).toEqual([]);
  });

  test('leads with green or magenta where that is the larger part of the cast', () => {
    const cast = { deltaUv: 0.0046, mired: -1.6, duv: 0.0041 };
    expect(findings(diagnosisOf({ ev: () => 0, cast }))[0]!.says).toBe(
      'The whole frame is slightly greener and cooler by 2 mired (about 50 K at 5500 K), against white.',
    );
  });

  test('tells nothing finer than a hundredth of a stop, however sure', () => {
    const sure = { gradient: { plusMinusEv: 0.0001 }, falloff: { cellPlusMinusEv: 0.0001 } };
    expect(kinds({ ev: (x) => 0.009 * x, ...sure, gradient: { plusMinusEv: 0.0001, angleDeg: 0 } })).toEqual(
      [],
    );
    expect(kinds({ ev: bowl(0.009), ...sure })).toEqual([]);
    const strict = { ...DEFAULT_TOLERANCE, limit: 0.01 };
    expect(findings(diagnosisOf({ ev: bowl(0.012), ...sure }, { tolerance: strict }))).toHaveLength(1);
  });

  test('tells causes that matter: half of the tolerance in an even frame, a third in an uneven one', () => {
    // limit 0.3: in an even frame from 0.15 on
    expect(kinds({ ev: bowl(0.14) })).toEqual([]);
    expect(kinds({ ev: bowl(0.17) })).toEqual(['bright-middle']);
    expect(kinds({ ev: (x) => 0.14 * x })).toEqual([]);
    expect(kinds({ ev: (x) => 0.17 * x })).toEqual(['slope']);
    // in one that fails for whatever else, from 0.1 on
    expect(kinds({ ev: (x) => 0.12 * x, falloff: { spreadEv: 0.45 } })).toEqual(['slope']);
    expect(kinds({ ev: (x) => 0.09 * x, falloff: { spreadEv: 0.45 } })).toEqual([]);
    expect(kinds({ ev: () => 0, cast: { deltaUv: 0.0015, mired: 3, duv: 0 } })).toEqual([]);
    expect(kinds({ ev: () => 0, cast: { deltaUv: 0.0017, mired: 3, duv: 0 } })).toEqual(['cast']);
  });

  test('tells a slope that is hardly one in brightness where its colour matters', () => {
    const slope = (mired: number) =>
      kinds({ ev: (x) => 0.05 * x, gradient: { angleDeg: 0, mired, plusMinusMired: 0.1 } });
    expect(slope(-20)).toEqual(['slope']);
    expect(slope(-5)).toEqual([]);
  });

  test('finds a cast too far from white for a colour temperature', () => {
    const cast = { deltaUv: 0.1, mired: null, duv: null, labA: -60, labB: 20 };
    expect(findings(diagnosisOf({ ev: () => 0, cast }))[0]!.says).toBe(
      'The whole frame is greener than white, strongly coloured.',
    );
  });

  test('finds clipping, with its place', () => {
    const highlight = (x: number, y: number) => (Math.hypot(x - 0.25, y - 0.5) < 0.1 ? 1 : 0);
    const [found] = findings(
      diagnosisOf({ ev: () => 0, highlight, highlightShare: 0.03, falloff: { isLowerBound: true } }),
    );
    expect(found!.kind).toBe('clipped');
    expect(found!.ev).toBeNull();
    expectWithin(found!.at!.x, 0.25, 0.01);
    expectWithin(found!.at!.y, 0.5, 0.01);
    expect(found!.says).toMatch(/^3 % of the frame is clipped; the light falls off by more/);
  });

  test('bears a few clipped specks', () => {
    expect(kinds({ ev: () => 0, highlightShare: 0.0008 })).toEqual([]);
  });

  test('finds a frame too dark where noise at its level eats the tolerance', () => {
    const found = findings(diagnosisOf({ ev: () => 0, level: 0.002, scatter: 0.02 }))[0]!;
    expect(found.kind).toBe('too-dark');
    expect(found.ev).toBeNull();
    expect(found.says).toContain('give it 8.0 stops more');
  });

  test('does not call a dark frame too dark that is fine enough all the same', () => {
    // four stops under the aim, 14 bits, little noise
    expect(kinds({ ev: () => 0, level: 0.5 / 16, scatter: 0.0005 })).toEqual([]);
  });

  test('does not ask for more light where the brightest part has no room for it', () => {
    expect(kinds({ ev: (x) => 8 * x, level: 0.5, scatter: 0.02 })).not.toContain('too-dark');
  });

  test('finds a thing in the frame, with its place', () => {
    const box = (x: number, y: number) => (Math.abs(x - 0.7) < 0.15 && Math.abs(y - 0.4) < 0.2 ? -2 : 0);
    const found = findings(diagnosisOf({ ev: box }))[0]!;
    expect(found.kind).toBe('not-blank');
    expectWithin(found.at!.x, 0.7, 0.02);
    expectWithin(found.at!.y, 0.4, 0.02);
  });

  test('puts doubts first and causes by their size against the tolerance', () => {
    const highlight = (x: number) => (x > 0.97 ? 1 : 0);
    const cast = { deltaUv: 0.0094, mired: 20, duv: 0 };
    expect(kinds({ ev: (x) => 0.3 * x, cast, highlight, highlightShare: 0.03 })).toEqual([
      'clipped',
      'cast', // twice its limit
      'slope', // about its limit
    ]);
    expect(kinds({ ev: (x) => 1.2 * x, cast })).toEqual(['slope', 'cast']);
  });

  test('gives every finding a confidence between 0 and 1 and one sentence', () => {
    for (const found of findings(
      diagnosisOf({
        ev: bowl(0.9, 0.3, 0.4),
        cast: { deltaUv: 0.01, mired: -20, duv: 0.004 },
        highlightShare: 0.1,
      }),
    )) {
      expect(found.confidence).toBeGreaterThan(0.9);
      expect(found.confidence).toBeLessThanOrEqual(1);
      expect(found.says).toMatch(/^[A-Z0-9].*\.$/);
    }
  });
});
