import { decode } from 'fast-png';
import { describe, expect, test } from 'vitest';
import { writePng } from '../../../src/engine/export/write-png.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { tumblerExif } from './exif-of-camera.ts';
import { p3Profile, srgbProfile } from './known-profiles.ts';
import { decoded, exifFacts, picture, sameCodes, wholeFile } from './read-back.ts';

const png = async (...asked: Parameters<typeof picture>) =>
  wholeFile(await writePng(picture(...asked), nodePlatform));

describe('writePng(picture) is read back code by code by two other decoders:', () => {
  for (const bitsPerSample of [8, 16] as const)
    for (const channels of [1, 2, 3, 4] as const)
      test(`${channels} channels of ${bitsPerSample} bits`, async () => {
        const given = picture({ channels, bitsPerSample });
        const file = await png(given);
        const back = decode(file);
        expect([back.width, back.height, back.channels, back.depth]).toEqual([
          150,
          90,
          channels,
          bitsPerSample,
        ]);
        expect(sameCodes(back.data as Uint8Array, given.samples)).toBe(true);
        expect(sameCodes((await decoded(file)).samples, given.samples)).toBe(true);
      });

  test('over several pieces, each filter of PNG in use', async () => {
    const given = picture({ widthPx: 1400, heightPx: 500 });
    const { samples } = given;
    // rows that each of the filters fits best: still, across, down, along both, and grain
    for (let y = 0; y < 500; y++)
      for (let i = 0; i < 4200; i++)
        if (y < 100) samples[y * 4200 + i] = (y % 2) * 257 * (i % 3);
        else if (y < 200) samples[y * 4200 + i] = Math.floor(i / 3) * 40 + ((y * 7919) % 9000);
        else if (y < 300) samples[y * 4200 + i] = ((i * 7919) % 60000) + y;
        else if (y < 400) samples[y * 4200 + i] = Math.floor(i / 3) * 20 + y * 60;
    const file = await png(given);
    expect(sameCodes(decode(file).data as Uint16Array, samples)).toBe(true);
  });
});

describe('writePng(picture) carries what the source says:', () => {
  test('the profile’s own bytes', async () => {
    for (const iccProfile of [p3Profile, srgbProfile]) {
      const file = await png({ iccProfile });
      expect(Buffer.compare((await decoded(file)).metadata.icc!, iccProfile)).toBe(0);
      expect(Buffer.compare(decode(file).iccEmbeddedProfile!.profile, iccProfile)).toBe(0);
    }
  });

  for (const order of ['II', 'MM'] as const)
    test(`Exif, GPS, the maker’s note and orientation, written ${order}`, async () => {
      const makerNote = Buffer.from('A maker’s own note of some length, offsets and all');
      const exif = tumblerExif(order, { orientation: 5, makerNote });
      const file = await png({ exif, orientation: 5 });
      expect(await exifFacts(file)).toMatchObject(await exifFacts(exif));
      expect((await decoded(file)).metadata.orientation).toBe(5);
      const { exif: written } = await decodeImage(file, nodePlatform);
      expect(Buffer.from(written!).indexOf(makerNote)).toBe(Buffer.from(exif).indexOf(makerNote));
    });

  test('an orientation that no Exif states', async () => {
    expect((await decoded(await png({ orientation: 7 }))).metadata.orientation).toBe(7);
  });

  test('no thumbnail: it shows the picture as it was', async () => {
    const thumbnail = Buffer.from('ÿØ a small picture that is not wanted any more ÿÙ', 'latin1');
    const file = Buffer.from(await png({ exif: tumblerExif('MM', { thumbnail }) }));
    expect(file.includes(thumbnail)).toBe(false);
  });

  test('what a PNG without a profile states of its colours', async () => {
    const chromaticities = {
      white: [0.3127, 0.329],
      red: [0.7, 0.3],
      green: [0.1, 0.8],
      blue: [0.12, 0.05],
    } as const;
    const stated = { gamma: 100000 / 55556, chromaticities };
    const file = wholeFile(await writePng(picture(), nodePlatform, { stated }));
    expect(await decodeImage(file, nodePlatform)).toMatchObject(stated);
    const srgb = wholeFile(
      await writePng(picture(), nodePlatform, { stated: { sRgbStated: true, gamma: null } }),
    );
    expect((await decodeImage(srgb, nodePlatform)).sRgbStated).toBe(true);
    expect((await decoded(srgb)).metadata.space).toBe('rgb16');
  });

  test('a description, where one is asked for', async () => {
    const file = wholeFile(await writePng(picture(), nodePlatform, { description: '65535 is +1.25 stops' }));
    expect(decode(file).text).toEqual({ Description: '65535 is +1.25 stops' });
  });
});

test('writePng(picture) makes smooth light much smaller, and tells how far it is', async () => {
  const samples = Uint16Array.from(
    { length: 600 * 400 * 3 },
    (_, i) => 20000 + (Math.floor(i / 3) % 600) * 30 + Math.floor(i / 1800) * 17,
  );
  const told: number[] = [];
  const given = picture({ widthPx: 600, heightPx: 400, samples });
  const file = wholeFile(
    await writePng(given, nodePlatform, { onProgress: (fraction) => told.push(fraction) }),
  );
  console.log(`measured: a smooth 16-bit picture of ${samples.byteLength} bytes as a PNG of ${file.length}`);
  expect(file.length).toBeLessThan(samples.byteLength / 20);
  expect(told.at(-1)).toBe(1);
  expect(told).toEqual(told.toSorted((a, b) => a - b));
});
