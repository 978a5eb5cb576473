import { expect, test } from 'vitest';
import { correctedName, numberedName } from '../../src/sources/corrected-name.ts';

test('correctedName(frameName, extension) is never the source’s own, and one that every file system takes', () => {
  const names: [string, string, string][] = [
    ['tumbler-12.jpg', 'tif', 'tumbler-12.corrected.tif'],
    ['tumbler-12.tif', 'tif', 'tumbler-12.corrected.tif'],
    ['tumbler.corrected.tif', 'tif', 'tumbler.corrected.corrected.tif'],
    ['a/b\\c:d*e.png', 'png', 'a-b-c-d-e.corrected.png'],
    ['..hidden.jpg', 'jpg', 'hidden.corrected.jpg'],
    ['', 'tif', 'frame.corrected.tif'],
    ['no extension', 'tif', 'no extension.corrected.tif'],
    ['Glas groß 7.jpeg', 'jpg', 'Glas groß 7.corrected.jpg'],
  ];
  for (const [source, extension, expected] of names) {
    expect(correctedName(source, extension)).toBe(expected);
    expect(correctedName(source, extension)).not.toBe(source);
  }
  expect(correctedName(`${'x'.repeat(400)}.jpg`, 'tif').length).toBeLessThan(200);
});

test('numberedName(name, number) puts the number before the extension', () => {
  expect(numberedName('a.corrected.tif', 1)).toBe('a.corrected.tif');
  expect(numberedName('a.corrected.tif', 2)).toBe('a.corrected-2.tif');
  expect(numberedName('bare', 3)).toBe('bare-3');
});
