import { expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { type MeasureOptions, measureFrame } from '../../src/engine/measure-frame.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import { readFrame } from '../../src/engine/read-frame.ts';
import type { CameraResponse } from '../../src/engine/response/camera-response.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { WELL_ELECTRONS } from './known-frames.ts';
import { responseOf } from './response/response-of.ts';

const tone = toneCurve(1.5);
const { field } = randomField(11, { family: 'quadratic', spreadEv: 1.5, peak: 0.9 });
const response = responseOf(tone);

async function jpeg(styled: boolean, model = 'Model A'): Promise<Uint8Array> {
  const raster = { widthPx: 480, heightPx: 320, bits: 8, curve: 'srgb', seed: 4 } as const;
  const frame = renderFrame(field, { ...raster, electronsAtFull: WELL_ELECTRONS, ...(styled && { tone }) });
  return toJpeg(frame, { quality: 95, chroma: '4:4:4', exif: { colourSpace: 1, model } });
}

const read = (bytes: Uint8Array) =>
  readFrame(
    [{ name: 'blank.jpg', bytes }],
    { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE, response },
    nodePlatform,
  );

/** Measured alone: no set is fitted. */
const measured = async (bytes: Uint8Array, options: { response?: CameraResponse } = {}) =>
  (await measureFrame([{ name: 'blank.jpg', bytes }], options, nodePlatform)).measurement;

test('measureFrame(camera’s JPEG, response) finds the falloff that the tone curve hides', async () => {
  const styled = await jpeg(true);
  const plain = await measured(styled);
  const { spreadEv } = (await measured(await jpeg(false))).falloff;
  const reading = await measured(styled, { response });
  console.log(
    `measured: spread ${spreadEv.toFixed(3)} EV without a tone curve; with one, read ${plain.falloff.spreadEv.toFixed(3)} by sRGB alone and ` +
      `${reading.falloff.spreadEv.toFixed(3)} by the camera’s response`,
  );
  expect(Math.abs(plain.falloff.spreadEv - spreadEv)).toBeGreaterThan(0.1);
  expectWithin(reading.falloff.spreadEv, spreadEv, 0.02);
  expect(reading.frame.light).toBe('response-recovered');
});

test('measureFrame(frame, { responses }) goes by the one of the camera that Exif names, and by no other', async () => {
  const source = { name: 'blank.jpg', bytes: await jpeg(true) };
  const readBy = async (options: MeasureOptions) =>
    (await measureFrame([source], options, nodePlatform)).readBy;
  const own = { ...response, camera: 'Model A' };
  const other = { ...response, camera: 'Model B' };
  expect(await readBy({ responses: [other, own] })).toEqual({ camera: 'Model A', response: own });
  expect(await readBy({ responses: [other, { ...own, camera: null }] })).toEqual({
    camera: 'Model A',
    response: null,
  });
  expect((await readBy({ response: other, responses: [own] })).response).toBe(other); // what is asked for holds
});

test('measureFrame(frames) averages none of different cameras, of which one response may hold and the other not', async () => {
  const [a, b] = [await jpeg(true), await jpeg(true, 'Model B')];
  const responses = [{ ...response, camera: 'Model A' }];
  const averaged = (second: Uint8Array) =>
    measureFrame(
      [
        { name: 'a.jpg', bytes: a },
        { name: 'b.jpg', bytes: second },
      ],
      { responses },
      nodePlatform,
    );
  await expect(averaged(b)).rejects.toMatchObject({
    code: 'unsupported-file',
    message: expect.stringContaining('different cameras (Model A, Model B)'),
  });
  expect((await averaged(a)).measurement.frame.averagedFrames).toBe(2);
});

test('measureFrame() refuses a response that is none before it opens a file', async () => {
  const bad = { ...response, schema: 'other' } as unknown as CameraResponse;
  const failed = measureFrame([{ name: 'a.jpg', bytes: new Uint8Array(9) }], { response: bad }, nodePlatform);
  await expect(failed).rejects.toMatchObject({ code: 'wrong-profile' });
});

test('correctFrame(frame, profile, response) evens out what the response reads, and says where it is wanting', async () => {
  const bytes = await jpeg(true);
  const profile = makeProfile(await read(bytes));
  const source = { name: 'blank.jpg', bytes };
  const corrected = await correctFrame(source, profile, { format: 'png', bits: 16, response }, nodePlatform);
  expect(corrected.flags.filter((flag) => flag.includes('response'))).toEqual([]);
  const file = new Uint8Array(await new Blob(corrected.parts as Uint8Array<ArrayBuffer>[]).arrayBuffer());
  const left = (await measured(file)).falloff.stdEv;
  const without = await correctFrame(source, profile, { format: 'png', bits: 16 }, nodePlatform);
  expect(without.flags.join(' ')).toMatch(/by its camera’s response; this frame is read without one/);
  const itsFile = new Uint8Array(await new Blob(without.parts as Uint8Array<ArrayBuffer>[]).arrayBuffer());
  const leftWithout = (await measured(itsFile)).falloff.stdEv;
  console.log(
    `measured: left by the correction, standard deviation ${left.toFixed(4)} EV with the response, ${leftWithout.toFixed(4)} EV without`,
  );
  expect(left).toBeLessThan(0.005);
  expect(leftWithout).toBeGreaterThan(0.03);
});
