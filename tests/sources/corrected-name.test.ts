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
});

test('correctedName(frameName, extension) stays within 255 bytes of UTF-8, and cuts no character in two', () => {
  const bytesOf = (name: string) => new TextEncoder().encode(name).length;
  for (const [character, bytes] of [
    ['x', 1],
    ['ß', 2],
    ['窓', 3],
    ['𠮷', 4], // two units of UTF-16
  ] as const)
    for (const lead of ['', 'a', 'ab', 'abc']) {
      const name = correctedName(`${lead}${character.repeat(400)}.jpg`, 'jpeg');
      expect(name).toMatch(new RegExp(`^${lead}(${character})+\\.corrected\\.jpeg$`, 'u'));
      expect(new TextDecoder().decode(new TextEncoder().encode(name))).toBe(name); // no half of a pair
      expect(bytesOf(numberedName(name, 1_234_567))).toBeLessThanOrEqual(255);
      expect(bytesOf(name)).toBeGreaterThan(247 - bytes);
    }
  const whole = '窓'.repeat(70); // 210 bytes, which fit
  expect(correctedName(`${whole}.jpg`, 'tif')).toBe(`${whole}.corrected.tif`);
});

test('numberedName(name, number) puts the number before the extension', () => {
  expect(numberedName('a.corrected.tif', 1)).toBe('a.corrected.tif');
  expect(numberedName('a.corrected.tif', 2)).toBe('a.corrected-2.tif');
  expect(numberedName('bare', 3)).toBe('bare-3');
});
