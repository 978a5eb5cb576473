import { expect, test } from 'vitest';
import { miredInWords } from '../../src/engine/diagnosis/figures-in-words.ts';
import { kelvinAside } from '../../src/engine/kelvin-aside.ts';
import { kelvinAside as kelvinOnScreen } from '../../src/screen/words/warmth.ts';

test('kelvinAside(mired) gives tens of kelvin at 5500 K, whole ones below ten', () => {
  // 5500 − 1e6 / (1e6 / 5500 + 9) = 259 K; 1e6 / (1e6 / 5500 − 1.6) − 5500 = 48.8 K
  expect(kelvinAside(9)).toBe(260);
  expect(kelvinAside(-1.6)).toBe(50);
  expect(kelvinAside(0.1)).toBe(3);
  expect(kelvinAside(-160)).toBeNull();
});

test('a finding and the page put the same kelvin beside the same mired', () => {
  for (let mired = -140; mired <= 200; mired += 0.7) {
    const onScreen = kelvinOnScreen(mired).replaceAll('\u00a0', ' ');
    expect(miredInWords(mired)).toContain(`(${onScreen})`);
  }
});
