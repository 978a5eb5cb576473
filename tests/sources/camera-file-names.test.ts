import { expect, test } from 'vitest';
import { isPassing, stemOf } from '../../src/sources/camera-file-names.ts';

test('isPassing(name) knows files that are being written, and no frame', () => {
  for (const name of ['a.jpg.crswap', 'a.part', 'A.TMP', '.a.jpg', '~a.jpg', 'a.crdownload'])
    expect(isPassing(name), name).toBe(true);
  for (const name of ['a.jpg', 'template.png', 'a.part.jpg', 'a~1.jpg'])
    expect(isPassing(name), name).toBe(false);
});

test('stemOf(name) is the same for all files of one frame', () => {
  expect(stemOf('TUMBLER_12.JPG')).toBe(stemOf('tumbler_12.dng'));
  expect(stemOf('tumbler.12.jpg')).toBe('tumbler.12');
});
