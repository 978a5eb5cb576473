import { expect, test } from 'vitest';
import { measureFrame } from '../../src/engine/measure-frame.ts';
import type { BracketPhase } from '../../src/engine/read-bracket.ts';
import { checkResponse } from '../../src/engine/response/check-response.ts';
import { srgbResponse } from '../../src/engine/response/srgb-response.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { encodeSrgb } from '../synthetic/code-thresholds.ts';
import { toJpeg } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { bracketRead, MARKED, TONE } from './response/bracket-of.ts';
import { responseOf } from './response/response-of.ts';

/** One bracket for all that asks no other. */
const news: [BracketPhase, number][] = [];
const recovered = bracketRead({}, {}, (phase, fraction) => news.push([phase, fraction]));

const truth = responseOf(TONE).channels.green;

/** Standard deviation of a curve's error over codes, a constant apart: what falloff is off by. */
function errorEv(curve: readonly number[], from: number, to: number): number {
  const errors = curve.slice(from, to + 1).map((stops, i) => stops - truth[from + i]!);
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  return Math.sqrt(errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length);
}

test('readBracket(frames) recovers an S-shaped tone curve from JPEGs to 0.03 EV from 5 to 95 % of full scale', async () => {
  const response = await recovered;
  const codes = [Math.round(0.05 * 255), Math.round(0.95 * 255)] as const;
  const light = [0.05, 0.95].map((level) => Math.round(255 * encodeSrgb(TONE(level)))) as [number, number];
  const srgb = srgbResponse().channels.green;
  for (const [of, [from, to]] of [
    ['codes', codes],
    ['light', light],
  ] as const) {
    const errors = Object.values(response.channels).map((curve) => errorEv(curve, from, to));
    console.log(
      `measured: falloff between 5 and 95 % of full ${of} (codes ${from} to ${to}) within ${errors.map((error) => error.toFixed(4)).join(', ')} EV rms by the response, ${errorEv(srgb, from, to).toFixed(3)} EV by sRGB alone; ± ${response.plusMinusEv.toFixed(4)} told`,
    );
    expect(Math.max(...errors)).toBeLessThan(0.03);
    expect(errorEv(srgb, from, to)).toBeGreaterThan(0.15);
  }
});

test('readBracket(frames) says what it was made from, and can be handed on', async () => {
  const response = await recovered;
  expect(checkResponse(JSON.parse(JSON.stringify(response)))).toEqual(response);
  expect(response).toMatchObject({
    schema: 'evenfield.response/1',
    camera: 'Model A',
    fromStops: 4,
    madeFrom: { stopsBy: 'shutter' },
  });
  expect(response.madeFrom.frames.map(({ name, stops }) => [name, stops])).toEqual(
    MARKED.map(({ stops }, i) => [`frame-${i}.jpg`, stops]),
  );
  expect(response.madeFrom.frames[4]!.exposure?.seconds).toBe(1 / 125);
  const [low, high] = response.madeFrom.codes!.green;
  expect(low).toBeLessThan(40);
  expect(high).toBeGreaterThan(245);
  // one curve explains all three channels, so white stays white
  expect(response.channels.red).toEqual(response.channels.green);
  const fractions = news.filter(([phase]) => phase !== 'fitting').map(([, fraction]) => fraction);
  expect(fractions).toEqual(fractions.toSorted((a, b) => a - b));
  expect(news.at(-1)).toEqual(['fitting', 1]);
});

test('readBracket(frames) lets another frame of the camera be read to its true falloff', async () => {
  const response = await recovered;
  const { field } = randomField(5, { family: 'radial', spreadEv: 1.4, peak: 0.95 });
  const shot = async (tone: typeof TONE) => {
    const raster = { widthPx: 300, heightPx: 200, bits: 8, curve: 'srgb', seed: 9 } as const;
    const frame = renderFrame(field, { ...raster, electronsAtFull: 30_000, tone });
    return [{ name: 'a.jpg', bytes: await toJpeg(frame, { quality: 95, chroma: '4:4:4' }) }];
  };
  const spread = async (tone: typeof TONE, options: Parameters<typeof measureFrame>[1]) =>
    (await measureFrame(await shot(tone), options, nodePlatform)).measurement.falloff.spreadEv;
  const [plain, byResponse, bySrgb] = [
    await spread(toneCurve(1), {}),
    await spread(TONE, { response }),
    await spread(TONE, {}),
  ];
  console.log(
    `measured: spread ${plain.toFixed(3)} EV without a tone curve; with one, ${byResponse.toFixed(3)} by the recovered response, ${bySrgb.toFixed(3)} by sRGB alone`,
  );
  expectWithin(byResponse, plain, 0.03);
  expect(Math.abs(bySrgb - plain)).toBeGreaterThan(0.15);
});

test('readBracket(frames, { stops }) goes by the steps entered where the shutter tells nothing', async () => {
  const marks = MARKED.map(({ stops }) => ({ exposureTime: [1, 160] as const, stops }));
  const response = await bracketRead({ marks }, { stops: [4, 3, 2, 1, 0] });
  expect(response).toMatchObject({ fromStops: 4, madeFrom: { stopsBy: 'entered' } });
  expect(errorEv(response.channels.green, 40, 242)).toBeLessThan(0.03);
  await expect(bracketRead({ marks })).rejects.toMatchObject({
    code: 'bad-bracket',
    message: expect.stringMatching(
      /All 5 frames have the same exposure \(1\/160 s\).*flash, change its power/,
    ),
  });
});

test('readBracket(frames) keeps the curves of channels apart that differ', async () => {
  const own = toneCurve(1.15);
  const warm = (frame: number) => MARKED[frame]!.stops;
  const response = await bracketRead({
    coded: (frame, picture) => {
      // red laid over by a curve of its own: rendered anew and put in place
      const { field } = randomField(11, { family: 'quadratic', spreadEv: 1, peak: 0.95 });
      const light = (x: number, y: number) =>
        field(x, y).map((value) => value * 2 ** warm(frame)) as unknown as readonly [number, number, number];
      const raster = { widthPx: 192, heightPx: 128, bits: 8, curve: 'srgb', seed: 70 + frame } as const;
      const its = renderFrame(light, { ...raster, electronsAtFull: 30_000, tone: own });
      for (let i = 0; i < its.samples.length; i += 3) picture.samples[i] = its.samples[i]!;
    },
  });
  const red = responseOf(own).channels.red;
  const errors = [60, 100, 180, 230].map(
    (code) => response.channels.red[code]! - response.channels.red[140]! - red[code]! + red[140]!,
  );
  console.log(`measured: red's own curve within ${Math.max(...errors.map(Math.abs)).toFixed(4)} EV`);
  expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.05);
  expect(errorEv(response.channels.green, 40, 242)).toBeLessThan(0.05);
});
