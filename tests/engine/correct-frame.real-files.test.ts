import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { nodePlatform } from '../node-platform.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../shared-photos.ts';
import { latticeOf, profileOf } from './correct/profile-of.ts';
import { decoded, wholeFile } from './export/read-back.ts';

const inFolder = (folder: string) => (sharedPhotosPresent ? sharedPhotoNames(folder) : []);

/** Codes of the picture as seen, 8 bits of three channels. */
async function upright(file: Uint8Array): Promise<Uint8Array> {
  return new Uint8Array(
    await sharp(file, { ignoreIcc: true }).rotate().toColourspace('srgb').removeAlpha().raw().toBuffer(),
  );
}

function meanDifference(a: Uint8Array, b: Uint8Array): number {
  expect(a.length).toBe(b.length);
  return a.reduce((sum, code, i) => sum + Math.abs(code - b[i]!), 0) / a.length;
}

describe.skipIf(!sharedPhotosPresent)('correctFrame(source, profile) of real files', () => {
  test('by gains of nothing leaves their codes as they are', async () => {
    const nothing = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
    const names = [...inFolder('linear-and-coded'), ...inFolder('sixteen-bit')].filter((name) =>
      name.endsWith('.png'),
    );
    expect(names.length).toBeGreaterThan(3);
    for (const name of names) {
      const source = await decoded(sharedPhoto(name));
      const bits = source.bits as 8 | 16;
      const { parts, clippedPixels } = await correctFrame(
        { name, bytes: sharedPhoto(name) },
        nothing,
        { bits },
        nodePlatform,
      );
      const { samples } = await decoded(wholeFile(parts));
      let worst = 0;
      for (const [i, code] of samples.entries()) worst = Math.max(worst, Math.abs(code - source.samples[i]!));
      console.log(`measured: ${name}, ${bits} bits: by gains of nothing at most ${worst} codes off`);
      expect(worst, name).toBeLessThanOrEqual(1);
      expect(clippedPixels, name).toBe(0);
    }
  });

  test('of one picture in each orientation makes one corrected picture of them, and says that they are turned', async () => {
    const names = inFolder('orientation');
    expect(names.length).toBe(8);
    const bent = latticeOf(9, 7, (x, y) => [0.8 * x - 0.4 * y, 0.5 * x * y - 0.3, 0.2 - 0.6 * y]);
    const base = profileOf(bent);
    const profile = { ...base, madeFrom: { ...base.madeFrom, widthPx: 1800, heightPx: 1200 } };
    const corrected = async (bytes: Uint8Array) =>
      upright(
        wholeFile((await correctFrame({ name: 'a.jpg', bytes }, profile, { bits: 8 }, nodePlatform)).parts),
      );
    const [first, ...others] = names.map((name) => sharedPhoto(name));
    const [source, wanted] = [await upright(first!), await corrected(first!)];
    const changed = meanDifference(source, wanted);
    expect(changed).toBeGreaterThan(5);
    for (const [i, other] of others.entries()) {
      const before = meanDifference(await upright(other), source);
      const after = meanDifference(await corrected(other), wanted);
      console.log(
        `measured: orientation ${i + 2}: ${before.toFixed(2)} codes from the first as shot, ${after.toFixed(2)} as corrected`,
      );
      expect(after).toBeLessThan(before + 1); // each is dithered anew
    }
  });
});
