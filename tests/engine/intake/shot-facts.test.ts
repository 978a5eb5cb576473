import { expect, test } from 'vitest';
import { shotFacts } from '../../../src/engine/intake/shot-facts.ts';
import { exifBlock } from '../../synthetic/exif-block.ts';

test('shotFacts(exif) reads camera and focus; what a file does not say is null', () => {
  const facts = (subjectDistance: readonly [number, number]) =>
    shotFacts(exifBlock({ model: 'Camera 5 ', subjectDistance }));
  expect(facts([240, 100])).toEqual({ model: 'Camera 5', subjectDistanceM: 2.4 });
  expect(facts([0xffffffff, 1]).subjectDistanceM).toBe(Number.POSITIVE_INFINITY);
  expect(facts([0xffffffff, 100]).subjectDistanceM).toBe(Number.POSITIVE_INFINITY);
  for (const unknown of [[0, 1] as const, [5, 0] as const])
    expect(facts(unknown).subjectDistanceM).toBeNull();
  const nothing = { model: null, subjectDistanceM: null };
  expect(shotFacts(exifBlock({ orientation: 6 }))).toEqual(nothing);
  expect(shotFacts(null)).toEqual(nothing);
  expect(shotFacts(new Uint8Array(40))).toEqual(nothing);
});
