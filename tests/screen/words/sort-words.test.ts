import { expect, test } from 'vitest';
import { KIND_WORDS, setWords, sureWords } from '../../../src/screen/words/sort-words.ts';

const NAMES = ['a', 'b', 'c', 'd'];

test('each kind begins with another letter, so that one key says it', () => {
  const letters = Object.values(KIND_WORDS).map((word) => word[0]);
  expect(new Set(letters).size).toBe(letters.length);
});

test.each([
  [{ subjects: [], blank: null }, false, 'None of them shows a subject: there is nothing to correct.'],
  [
    { subjects: [1, 2, 3], blank: 0 },
    false,
    'To be corrected: all 3 frames of the subject, b to d; by the blank a.',
  ],
  [
    { subjects: [2, 3], blank: 0 },
    true,
    'To be corrected: the 2 frames of the subject after the last marker, c to d; by the blank a.',
  ],
  [{ subjects: [3], blank: 0 }, true, 'To be corrected: the one frame of the subject, d; by the blank a.'],
  [
    { subjects: [1, 2], blank: null },
    false,
    'To be corrected: all 2 frames of the subject, b to c. None of the frames is a blank: shoot one with this light, or say which it is.',
  ],
])('%j', (set, hasMarker, words) => {
  expect(setWords(set, NAMES, hasMarker)).toBe(words);
});

test.each([
  [{ kind: 'blank', confidence: 0.97 } as const, false, 'clearly'],
  [{ kind: 'blank', confidence: 0.7 } as const, false, 'probably'],
  [{ kind: 'marker', confidence: 0.55 } as const, false, 'a guess'],
  [{ kind: 'marker', confidence: 0.55 } as const, true, 'as you said'],
  [null, false, ''],
])('%j, said %s: %s', (told, isSaid, words) => {
  expect(sureWords(told, isSaid)).toBe(words);
});
