import { expect, test } from 'vitest';
import { miredInWords, shareInWords, stopsInWords } from '../../../src/engine/diagnosis/figures-in-words.ts';

test('stopsInWords(ev) gives tenths, and hundredths where small', () => {
  expect(stopsInWords(0.62)).toBe('0.6 stop');
  expect(stopsInWords(-1.34)).toBe('1.3 stops');
  expect(stopsInWords(1.02)).toBe('1.0 stop');
  expect(stopsInWords(0.081)).toBe('0.08 stop');
  expect(stopsInWords(0.1949)).toBe('0.19 stop');
  expect(stopsInWords(0.1951)).toBe('0.2 stop');
});

test('miredInWords(mired) puts kelvin beside it, more of them toward the cool side', () => {
  // 1e6 / (1e6 / 5500 − 9) − 5500 = 286 K; 5500 − 1e6 / (1e6 / 5500 + 9) = 259 K
  expect(miredInWords(-9)).toBe('9 mired (about 290 K at 5500 K)');
  expect(miredInWords(9)).toBe('9 mired (about 260 K at 5500 K)');
  expect(miredInWords(0.5)).toBe('0.5 mired (about 20 K at 5500 K)');
});

test('miredInWords(mired) leaves kelvin out where no colour temperature lies that far off', () => {
  expect(miredInWords(-160)).toBe('160 mired');
});

test('shareInWords(share) gives percent', () => {
  expect(shareInWords(0.034)).toBe('3 %');
  expect(shareInWords(0.0042)).toBe('0.4 %');
  expect(shareInWords(0.0002)).toBe('under 0.1 %');
});
