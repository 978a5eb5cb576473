import { expect, test } from 'vitest';
import { followedWords } from '../../../src/screen/words/follow-words.ts';

test('followedWords(state) counts what was read, what was not and what waits', () => {
  expect(followedWords({ framesRead: 0, framesFailed: 0, waiting: 0 })).toBe('no new frame yet');
  expect(followedWords({ framesRead: 1, framesFailed: 0, waiting: 0 })).toBe('1 new frame read');
  expect(followedWords({ framesRead: 7, framesFailed: 2, waiting: 3 })).toBe(
    '7 new frames read, 2 could not be, 3 waiting',
  );
});
