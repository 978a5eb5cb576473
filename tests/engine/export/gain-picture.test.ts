import { decode } from 'fast-png';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { gainPicture } from '../../../src/engine/export/gain-picture.ts';
import { readIccProfile } from '../../../src/engine/intake/read-icc-profile.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { nodePlatform } from '../../node-platform.ts';
import { lightOfCode } from '../../synthetic/code-thresholds.ts';
import { toPng } from '../../synthetic/encode.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { render } from '../blank-render.ts';
import { readBytes } from '../known-frames.ts';
import { decoded, exifFacts, wholeFile } from './read-back.ts';

const { field } = randomField(31, { family: 'quadratic', spreadEv: 1.5, peak: 0.7 });
const frame = render(field);
const report = await readBytes(toPng(frame));
const profile = makeProfile(report);

test('gainPicture(profile, size) evens and neutralises the frame when it is multiplied by it in linear light', async () => {
  const gains = await gainPicture(profile, frame, 'png', nodePlatform);
  const { data, depth, channels } = decode(wholeFile(gains.parts));
  expect([depth, channels]).toEqual([16, 3]);
  const corrected = Array.from(
    data,
    (code, at) => lightOfCode(frame.samples[at]!, 16, 'srgb') * (code / 65535) * 2 ** gains.largestStops,
  );
  let [low, high] = [Number.POSITIVE_INFINITY, 0];
  for (const light of corrected) [low, high] = [Math.min(low, light), Math.max(high, light)];
  const leftEv = Math.log2(high / low);
  console.log(`measured: multiplied by the gain picture, all channels lie within ${leftEv.toFixed(4)} EV`);
  expect(leftEv).toBeLessThan(0.02);
  expect(Array.from(data).reduce((a, b) => Math.max(a, b), 0)).toBeGreaterThan(65535 * 0.98); // the scale is filled
});

test('gainPicture(profile, size) says in the file how to apply it, and in which linear colours', async () => {
  const size = { widthPx: 90, heightPx: 60 };
  const tiff = await gainPicture(profile, size, 'tiff', nodePlatform);
  const png = await gainPicture(profile, size, 'png', nodePlatform);
  expect(tiff.says).toContain(`2^${tiff.largestStops.toFixed(4)}`);
  expect((await exifFacts(wholeFile(tiff.parts))).ImageDescription).toBe(tiff.says);
  expect(decode(wholeFile(png.parts)).text).toEqual({ Description: png.says });
  const { metadata, bits, samples } = await decoded(wholeFile(tiff.parts));
  expect([metadata.width, metadata.height, bits]).toEqual([90, 60, 16]);
  expect(
    Buffer.compare(
      Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength),
      Buffer.from((await decoded(wholeFile(png.parts))).samples.buffer.slice(0)),
    ),
  ).toBe(0);
  const icc = readIccProfile(new Uint8Array(metadata.icc!));
  expect(icc).toMatchObject({
    kind: 'matrix',
    description: 'sRGB, linear',
    curves: { red: { exponent: 1 } },
  });
});

test('gainPicture(profile, size) of a camera’s own colours carries no profile', async () => {
  const native = { ...profile, colourSpace: { name: 'camera-native', camera: 'Camera 5' } as const };
  const { parts } = await gainPicture(native, { widthPx: 30, heightPx: 20 }, 'tiff', nodePlatform);
  expect((await sharp(wholeFile(parts)).metadata()).icc).toBeUndefined();
});
