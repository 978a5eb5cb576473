import { describe, expect, test } from 'vitest';
import { findings, plainFindings } from '../../../src/engine/diagnosis/findings.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { diagnosisOf } from './measurement-of.ts';
import { about, setReadingOf, shareOf } from './set-reading-of.ts';

/** Hottest left of the middle, so that one side is down and the rim all round. */
const ASKEW = (x: number, y: number) => -1.8 * ((x - 0.35) ** 2 + (y - 0.5) ** 2);
const input = (set: Partial<SetReading> | null, field: Partial<Parameters<typeof diagnosisOf>[0]> = {}) => ({
  ...diagnosisOf({ ev: ASKEW, ...field }),
  set: set && setReadingOf(set),
});
const kinds = (...[set, field]: Parameters<typeof input>) =>
  findings(input(set, field)).map(({ kind }) => kind);

describe('how the light falls off', () => {
  test('is told where no cause is known', () => {
    expect(kinds(null)).toEqual(['bright-middle', 'slope']);
    expect(kinds({ causes: [] })).toEqual(['bright-middle', 'slope']);
  });

  test('is not told beside causes that explain it', () => {
    const causes = [shareOf('off-centre', { ev: 0.3 }), shareOf('too-close', { ev: 0.5 })];
    expect(kinds({ causes })).toEqual(['too-close', 'off-centre']);
  });

  test('nor beside causes that cannot be told apart', () => {
    const rivals = [
      { causes: ['lens-falloff', 'too-close'], ev: 0.5, plusMinusEv: 0.1, confidence: 0.95 },
    ] satisfies SetReading['rivals'];
    expect(kinds({ rivals })).toEqual(['cannot-tell']);
  });

  test('is told beside causes that take too little to explain it', () => {
    const told = plainFindings(input({}));
    const [larger, smaller] = told.map(({ ev }) => ev!);
    const off = (ev: number) => kinds({ causes: [shareOf('off-centre', { ev })] });
    // each is described until causes take seven tenths of it together
    expect(off(0.69 * smaller!).toSorted()).toEqual(['bright-middle', 'off-centre', 'slope']);
    expect(off(0.71 * smaller!)).toHaveLength(0.71 * smaller! < 0.7 * larger! ? 2 : 1);
    expect(off(0.71 * larger!)).toEqual(['off-centre']);
    const colour = shareOf('lens-colour', { ev: 0, deltaUv: 0.004 });
    expect(kinds({ lensCornerMired: about(8), causes: [colour] })).toContain('slope');
  });

  test('is told where the set does not explain the frame', () => {
    expect(kinds({ causes: [shareOf('off-centre')], leftOverEv: 0.2 })).toEqual(['bright-middle', 'slope']);
  });

  test('is all that is said without a model, whatever the set may be', () => {
    const plain = plainFindings(input({ causes: [shareOf('off-centre')] }));
    expect(plain.map(({ kind }) => kind)).toEqual(['bright-middle', 'slope']);
  });
});

describe('causes, doubts and colour', () => {
  const causes = [
    shareOf('too-close', { ev: 0.5 }), // 1.7 of the tolerance
    shareOf('lens-falloff', { ev: 0.2 }), // 0.7
    shareOf('lens-colour', { ev: 0.01, deltaUv: 0.0054 }), // 1.15 of the tolerance of tint
  ];
  const set = { causes, lensCornerMired: about(12) };

  test('go by their size against the tolerance, stops beside colour', () => {
    expect(kinds(set)).toEqual(['too-close', 'lens-colour', 'lens-falloff']);
    const cast = { deltaUv: 0.0066, deltaUPrime: 0.0066, mired: 14 }; // 1.4 of the tolerance of a cast
    expect(kinds(set, { cast })).toEqual(['too-close', 'cast', 'lens-colour', 'lens-falloff']);
    // as the lights’ own it goes by the part that they bring: 0.9
    const mainColour = { mired: 9, duv: 0, deltaUPrime: 0.0042, deltaVPrime: 0 };
    expect(kinds({ ...set, mainColour }, { cast })).toEqual([
      'too-close',
      'lens-colour',
      'tinted-all-over',
      'lens-falloff',
    ]);
  });

  test('come after what makes figures doubtful', () => {
    const highlight = (x: number) => (x > 0.97 ? 1 : 0);
    const clipped = { highlight, highlightShare: 0.03 };
    expect(kinds(set, clipped)).toEqual(['clipped', 'too-close', 'lens-colour', 'lens-falloff']);
  });
});
