import { describe, expect, test } from 'vitest';
import { judge } from '../../../src/engine/diagnosis/verdict.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { gridOf, type MeasuredField, measurementOf } from './measurement-of.ts';

function verdictOf(field: Partial<Parameters<typeof gridOf>[0]>, tolerance: Tolerance = DEFAULT_TOLERANCE) {
  const whole: MeasuredField = { ev: () => 0, ...field };
  return judge(measurementOf(whole), tolerance, gridOf(whole));
}

const by = (measure: Tolerance['measure'], limit: number): Tolerance => ({
  ...DEFAULT_TOLERANCE,
  measure,
  limit,
});

describe('judge(measurement, tolerance, grid)', () => {
  test('says yes, no, or that the limit lies inside the ±', () => {
    const spread = (spreadEv: number) => verdictOf({ falloff: { spreadEv, plusMinusEv: 0.02 } }).even;
    expect(spread(0.27)).toBe('yes');
    expect(spread(0.29)).toBe('too-close-to-say');
    expect(spread(0.31)).toBe('too-close-to-say');
    expect(spread(0.33)).toBe('no');
  });

  test('judges by the tolerance’s own measure, the ± carried over to its ratio', () => {
    // ±0.02 stop is 1.39 % of a level
    const centre = (fromCentreMax: number) =>
      verdictOf({ falloff: { fromCentreMax, plusMinusEv: 0.02 } }, by('from-centre', 0.1)).even;
    expect([0.083, 0.09, 0.11, 0.117].map(centre)).toEqual([
      'yes',
      'too-close-to-say',
      'too-close-to-say',
      'no',
    ]);
    const nine = (ninePointMinOverMax: number) =>
      verdictOf({ falloff: { ninePointMinOverMax, plusMinusEv: 0.02 } }, by('nine-point-min-max', 0.75)).even;
    expect([0.765, 0.755, 0.745, 0.735].map(nine)).toEqual([
      'yes',
      'too-close-to-say',
      'too-close-to-say',
      'no',
    ]);
    const mean = (minOverMean: number) =>
      verdictOf({ falloff: { minOverMean, plusMinusEv: 0.02 } }, by('min-over-mean', 0.6)).even;
    expect([0.61, 0.605, 0.595, 0.585].map(mean)).toEqual([
      'yes',
      'too-close-to-say',
      'too-close-to-say',
      'no',
    ]);
  });

  test('does not call a frame even whose clipping hides part of the falloff', () => {
    const falloff = { spreadEv: 0.1, isLowerBound: true };
    expect(verdictOf({ falloff }).even).toBe('too-close-to-say');
    expect(verdictOf({ falloff: { ...falloff, spreadEv: 0.9 } }).even).toBe('no');
  });

  test('calls a frame neutral by its tint and its cast, each against its own limit', () => {
    const neutral = (spreadDeltaUv: number, deltaUv: number) =>
      verdictOf({ tint: { spreadDeltaUv }, cast: { deltaUv } }).neutral;
    expect(neutral(0.002, 0.002)).toBe('yes');
    expect(neutral(0.006, 0.002)).toBe('no');
    expect(neutral(0.002, 0.006)).toBe('no');
    expect(neutral(0.0046, 0.002)).toBe('too-close-to-say');
    expect(neutral(0.0046, 0.006)).toBe('no');
  });

  test('calls a frame well exposed that neither clips nor starves', () => {
    expect(verdictOf({}).exposed).toBe('yes');
    expect(verdictOf({ highlightShare: 0.0008 }).exposed).toBe('yes');
    expect(verdictOf({ highlightShare: 0.002 }).exposed).toBe('no');
    expect(verdictOf({ level: 0.002, scatter: 0.02 }).exposed).toBe('no');
    expect(verdictOf({ level: 0.1, shadowShare: 0.02 }).exposed).toBe('no');
  });

  test('asks more of the exposure where the tolerance is finer', () => {
    // ±0.04 stop from noise: a seventh of 0.3 stop, but two thirds of 6 % from the centre
    const dim = { level: 0.05, scatter: 0.052 };
    expect(verdictOf(dim).exposed).not.toBe('no');
    expect(verdictOf(dim, by('from-centre', 0.05)).exposed).toBe('no');
  });
});
