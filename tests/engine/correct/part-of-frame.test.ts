import { expect, test } from 'vitest';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { expectWithin } from '../../expect-within.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { latticeOf, profileOf } from './profile-of.ts';
import { srgbOut } from './shot-scene.ts';

const [WIDTH_PX, HEIGHT_PX] = [720, 480];
/** Lit background in the middle, and the dark room round it. */
const REGION = { left: 0.2, top: 0.2, right: 0.8, bottom: 0.8 };
const isLit = (x: number, y: number) =>
  x >= REGION.left && x <= REGION.right && y >= REGION.top && y <= REGION.bottom;

function frame(light: (x: number, y: number) => number): LinearFrame {
  const samples = new Uint16Array(WIDTH_PX * HEIGHT_PX * 3);
  for (let at = 0; at < samples.length; at++) {
    const pixel = Math.floor(at / 3);
    const [x, y] = [((pixel % WIDTH_PX) + 0.5) / WIDTH_PX, (Math.floor(pixel / WIDTH_PX) + 0.5) / HEIGHT_PX];
    samples[at] = Math.round(65535 * light(x, y));
  }
  return frameOfCodes({ widthPx: WIDTH_PX, heightPx: HEIGHT_PX, bits: 16, samples }, { isLinear: true });
}

const lit = (x: number) => 0.5 * 2 ** -(x - REGION.left);
const held = (x: number) => Math.min(REGION.right, Math.max(REGION.left, x));
/** Brings the lit part to the light of its left edge; outside it each node repeats the nearest one inside. */
const PROFILE = (() => {
  const lattice = latticeOf(61, 41, (x) => {
    const stops = held(x) - REGION.left;
    return [stops, stops, stops];
  });
  const plain = profileOf(lattice);
  return { ...plain, madeFrom: { ...plain.madeFrom, region: REGION } };
})();

test('the background’s figures are of the part that the gains are made for, not of the dark round it', () => {
  const blank = frame((x, y) => (isLit(x, y) ? lit(x) : 0.004));
  const shot = frame((x, y) => (isLit(x, y) ? 0.9 * lit(x) : 0.0036));
  const { background } = correctLight(shot, PROFILE, { blank }, srgbOut(16));
  const { before, after } = background!;
  console.log(
    `measured: part of a frame: ${before.spreadEv.toFixed(3)} EV before, ${after.spreadEv.toFixed(4)} after, over ${after.blocks} blocks`,
  );
  expect(after.blocks).toBeGreaterThan(9);
  expect(before.spreadEv).toBeGreaterThan(0.3); // of five blocks beside each other
  expect(before.spreadEv).toBeLessThan(0.6);
  expectWithin(after.spreadEv, 0, 0.005);
  expectWithin(after.belowWhiteEv, -Math.log2(0.9 * 0.5), 0.01);
});

test('a background that can’t be found hinders only what is told of it, unless it alone is to be corrected', () => {
  const blank = frame(() => 1); // burnt out
  const shot = frame((x) => 0.9 * lit(held(x)));
  const { background, matte, samples } = correctLight(shot, PROFILE, { blank }, srgbOut(16));
  expect([background, matte]).toEqual([null, null]);
  expect(samples.length).toBe(WIDTH_PX * HEIGHT_PX * 3);
  expect(() => correctLight(shot, PROFILE, { blank, treat: 'background-only' }, srgbOut(16))).toThrow(
    expect.objectContaining({ code: 'no-light' }),
  );
});
