import { expect, test } from 'vitest';
import { oneFileAFrame } from '../../src/sources/one-file-a-frame.ts';

test.each([
  [
    ['a.dng', 'a.jpg', 'b.jpg'],
    ['a.dng', 'b.jpg'],
  ],
  [['A_1.JPG', 'a_1.dng'], ['a_1.dng']],
  [
    ['a.jpg', 'a.png'],
    ['a.jpg', 'a.png'],
  ],
  [[], []],
])('of %j remain %j', (names, remaining) => {
  expect(oneFileAFrame(names.map((name) => new File([], name))).map(({ name }) => name)).toEqual(remaining);
});
