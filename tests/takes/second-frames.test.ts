import { expect, test } from 'vitest';
import { areOneFile, haveOneShape } from '../../src/takes/second-frames.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

const { frame } = readingFixture({ columns: 2, rows: 2 });
const sized = (widthPx: number, heightPx: number) => ({ ...frame, widthPx, heightPx });

test.each([
  ['the same size', sized(6000, 4000), true],
  ['half the size', sized(3000, 2000), true],
  ['a margin that a converter trimmed', sized(6024, 4022), true],
  ['an upright frame', sized(4000, 6000), false],
  ['a squarer crop', sized(5600, 4200), false],
])('haveOneShape(frame, %s)', (_what, other, one) => {
  expect(haveOneShape(sized(6000, 4000), other)).toBe(one);
  expect(haveOneShape(other, sized(6000, 4000))).toBe(one);
});

test('areOneFile(a, b) goes by the digest, and says no where there is none', () => {
  expect(areOneFile({ ...frame, sha256: 'a1' }, { ...frame, name: 'copy.png', sha256: 'a1' })).toBe(true);
  expect(areOneFile({ ...frame, sha256: 'a1' }, { ...frame, sha256: 'b2' })).toBe(false);
  expect(areOneFile({ ...frame, sha256: null }, { ...frame, sha256: null })).toBe(false);
});
