import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { chunk, join, noiseSamples, type PngRecipe, pngFile } from './png-bytes.ts';
import { rejectionOf } from './rejection-code.ts';
import { tiffBlock } from './tiff-block.ts';

describe('decodePngFile reads what the file says beside its pixels:', () => {
  const plain: PngRecipe = { widthPx: 16, heightPx: 16, depth: 8, colourType: 2 };
  const profile = Uint8Array.from(noiseSamples(500, 8));
  const iccp = chunk('iCCP', join(Buffer.from('any\0\0', 'latin1'), deflateSync(profile)));
  const gama = (value: number) =>
    chunk('gAMA', Uint8Array.of(0, value >> 16, (value >> 8) & 255, value & 255));

  test('an ICC profile, which outranks gAMA', async () => {
    const image = await decodeImage(pngFile({ ...plain, chunks: [iccp, gama(45455)] }), nodePlatform);
    expect(image.iccProfile).toEqual(profile);
    expect(image.gamma).toBeNull();
  });
  test('an ICC profile that does not inflate, as an empty one', async () => {
    const broken = chunk('iCCP', Buffer.from('any\0\0no zlib stream', 'latin1'));
    const image = await decodeImage(pngFile({ ...plain, chunks: [broken] }), nodePlatform);
    expect(image.iccProfile).toEqual(new Uint8Array(0));
  });
  test('Exif, handed on as it stands', async () => {
    const exif = tiffBlock(
      'MM',
      [{ tag: 274, type: 3, value: [8] }],
      [{ tag: 34855, type: 3, value: [100] }],
    );
    const image = await decodeImage(pngFile({ ...plain, chunks: [chunk('eXIf', exif)] }), nodePlatform);
    expect(image.exif).toEqual(exif);
    expect(image.orientation).toBe(8);
    expect((await decodeImage(pngFile(plain), nodePlatform)).exif).toBeNull();
  });
  test('gAMA as a decoding exponent, unless sRGB is stated', async () => {
    const image = await decodeImage(pngFile({ ...plain, chunks: [gama(45455)] }), nodePlatform);
    expect(image.gamma).toBe(100000 / 45455);
    const stated = await decodeImage(
      pngFile({ ...plain, chunks: [chunk('sRGB', Uint8Array.of(0)), gama(45455)] }),
      nodePlatform,
    );
    expect([stated.gamma, stated.sRgbStated]).toEqual([null, true]);
  });
  test('chromaticities', async () => {
    const numbers = [31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000];
    const data = new Uint8Array(32);
    numbers.forEach((number, i) => {
      new DataView(data.buffer).setUint32(4 * i, number);
    });
    const image = await decodeImage(pngFile({ ...plain, chunks: [chunk('cHRM', data)] }), nodePlatform);
    expect(image.chromaticities).toEqual({
      white: [0.3127, 0.329],
      red: [0.64, 0.33],
      green: [0.3, 0.6],
      blue: [0.15, 0.06],
    });
  });
  const cicp = (...numbers: number[]) => chunk('cICP', Uint8Array.from(numbers));
  test('code points, before a profile, unless they are sRGB’s own or say nothing', async () => {
    const opened = (...chunks: Uint8Array[]) => decodeImage(pngFile({ ...plain, chunks }), nodePlatform);
    expect(await opened(cicp(12, 13, 0, 1))).toMatchObject({
      codePoints: { primaries: 12, transfer: 13 },
      sRgbStated: false,
    });
    expect(await opened(cicp(1, 13, 0, 1))).toMatchObject({ codePoints: null, sRgbStated: true });
    expect(await opened(cicp(2, 2, 0, 1))).toMatchObject({ codePoints: null, sRgbStated: false });
    const iccp = chunk('iCCP', join(Buffer.from('any\0\0', 'latin1'), deflateSync(Buffer.from('profile'))));
    expect(await opened(cicp(9, 8, 0, 1), iccp)).toMatchObject({
      codePoints: { primaries: 9, transfer: 8 },
      iccProfile: null,
    });
    const byProfile = await opened(cicp(9, 16, 0, 1), iccp);
    expect(byProfile.codePoints).toBeNull();
    expect(byProfile.iccProfile).toEqual(new Uint8Array(Buffer.from('profile')));
  });
  test.each([
    [[9, 16, 0, 1], /high dynamic range, by PQ/],
    [[9, 18, 0, 1], /high dynamic range, by HLG/],
    [[1, 9, 0, 1], /the curve number 9/],
    [[8, 13, 0, 1], /the primaries number 8/],
    [[1, 1, 1, 1], /no RGB over the full range/],
    [[1, 13, 0], /no RGB over the full range/],
  ] as const)('code points %j, by refusing them with the reason', async (numbers, reason) => {
    const error = await rejectionOf(pngFile({ ...plain, chunks: [cicp(...numbers)] }));
    expect(error.code).toBe('unsupported-file');
    expect(error.message).toMatch(reason);
  });
});
