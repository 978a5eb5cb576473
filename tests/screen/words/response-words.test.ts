import { expect, test } from 'vitest';
import {
  bracketProgressWords,
  channelWords,
  parseSteps,
  responseWords,
} from '../../../src/screen/words/response-words.ts';
import { responseOf } from '../../engine/response/response-of.ts';
import { toneCurve } from '../../synthetic/tone-curve.ts';

test('parseSteps(text) takes stops in any usual hand', () => {
  for (const text of ['0, -1, -2', '0,-1,-2', '0 −1 −2', '0; -1; -2', ' 0  -1 -2 '])
    expect(parseSteps(text)).toEqual([0, -1, -2]);
  expect(parseSteps('0 −0,7 −1,3')).toEqual([0, -0.7, -1.3]);
  expect(parseSteps('+1.5, 0')).toEqual([1.5, 0]);
  for (const text of ['one, two', '0, x', ',', '1/2 1']) expect(parseSteps(text)).toBe(null);
});

const codes = { red: [30, 250], green: [20, 252], blue: [25, 248] } as const;
const frames = [0, -2, -4].map((stops, i) => ({ name: `${i}.jpg`, sha256: null, exposure: null, stops }));
const response = (plusMinusEv: number, stopsBy: 'shutter' | 'entered') =>
  responseOf(toneCurve(1.4), { plusMinusEv, madeFrom: { frames, stopsBy, codes } });

test('responseWords(response) says how good it is and from what', () => {
  expect(responseWords(response(0.03, 'shutter'), 0.73).replaceAll('\u00a0', ' ')).toBe(
    'From 3 frames over 4.0 stops of shutter time: differences of light are good to ± 0.03 stop from code 30 to 248; beyond these the curve is only drawn on. Read as plain sRGB, the first stop below its brightest code would show as 0.73 stop.',
  );
  const coarse = responseWords(response(0.3, 'entered'), Number.NaN);
  expect(coarse).toContain('of power, as entered');
  expect(coarse).toMatch(/That is coarse: add frames/);
  expect(coarse).not.toContain('sRGB');
});

test('bracketProgressWords(phase) counts the frames', () => {
  expect(bracketProgressWords('decoding', 0, 5)).toBe('Reading frame 1 of 5');
  expect(bracketProgressWords('averaging', 0.5, 5)).toBe('Reading frame 3 of 5');
  expect(bracketProgressWords('averaging', 1, 5)).toBe('Reading frame 5 of 5');
  expect(bracketProgressWords('fitting', 0, 5)).toBe('Fitting the curve');
});

test('channelWords(channels) names whose a curve is', () => {
  expect(channelWords(['red', 'green', 'blue'])).toBe('red, green and blue');
  expect(channelWords(['red', 'blue'])).toBe('red and blue');
});
