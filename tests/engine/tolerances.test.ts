import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../../src/engine/tolerances.ts';

test('TOLERANCES starts with the default, 0.3 stop across the frame', () => {
  expect(TOLERANCES[0]).toBe(DEFAULT_TOLERANCE);
  expect(DEFAULT_TOLERANCE).toMatchObject({ measure: 'range', limit: 0.3 });
});

test('TOLERANCES gives each a name of its own, a source, and limits that can be met and missed', () => {
  expect(new Set(TOLERANCES.map(({ name }) => name)).size).toBe(TOLERANCES.length);
  for (const { source, measure, limit, tintDeltaUv, castDeltaUv } of TOLERANCES) {
    expect(source.length).toBeGreaterThan(20);
    expect(limit).toBeGreaterThan(0);
    if (measure !== 'range') expect(limit).toBeLessThan(1);
    for (const deltaUv of [tintDeltaUv, castDeltaUv]) {
      expect(deltaUv).toBeGreaterThan(0.001); // about one MacAdam step: nobody can ask for less
      expect(deltaUv).toBeLessThanOrEqual(0.02); // the loosest published figure used, NUREG-0700
    }
  }
});

test('TOLERANCES says "this project’s own choice" wherever the colour limit is not the source’s', () => {
  for (const { source, castDeltaUv } of TOLERANCES)
    if (castDeltaUv === 0.0047) expect(source).toContain('this project’s own choice');
});
