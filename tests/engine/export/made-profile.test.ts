import sharp from 'sharp';
import { expect, test } from 'vitest';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { madeGreyProfile, madeProfile } from '../../../src/engine/export/made-profile.ts';
import { profileToWrite } from '../../../src/engine/export/profile-to-write.ts';
import { writePng } from '../../../src/engine/export/write-png.ts';
import { writeTiff } from '../../../src/engine/export/write-tiff.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { profileColour } from '../../../src/engine/frame/profile-colour.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { readIccProfile } from '../../../src/engine/intake/read-icc-profile.ts';
import type { StoredImage } from '../../../src/engine/intake/stored-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { p3Profile } from './known-profiles.ts';
import { picture, wholeFile } from './read-back.ts';

const stored = (also: Partial<StoredImage>): StoredImage => ({
  ...{ format: 'png', widthPx: 1, heightPx: 1, channels: 3, bitsPerSample: 16, samples: new Uint16Array(3) },
  ...{
    orientation: 1,
    iccProfile: null,
    gamma: null,
    exifColourSpace: null,
    exposure: null,
    jpegDcSteps: null,
  },
  ...also,
});

/** Codes as a colour-management module reads them by an embedded profile, turned into 16-bit sRGB. */
async function asSrgb(codes: readonly number[], iccProfile: Uint8Array | null): Promise<number[]> {
  const channels = codes.length as 1 | 3;
  const samples = Uint16Array.from({ length: 64 * channels }, (_, i) => codes[i % channels]!);
  const file = wholeFile(writeTiff(picture({ widthPx: 8, heightPx: 8, channels, samples, iccProfile })));
  const { data } = await sharp(file)
    .pipelineColourspace('rgb16')
    .withIccProfile('srgb')
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const out = new Uint16Array(data.buffer, data.byteOffset, 3);
  return [...out];
}

test('madeProfile(space, curve) is read by a colour-management module as the space it is made of', async () => {
  const codes = [40000, 20000, 9000];
  const linear = await asSrgb(codes, madeProfile(SRGB, { exponent: 1 }));
  const coded = codes.map((code) => 65535 * (1.055 * (code / 65535) ** (1 / 2.4) - 0.055));
  const worst = Math.max(...linear.map((code, i) => Math.abs(code - coded[i]!)));
  const same = await asSrgb(codes, madeProfile(SRGB, 'srgb'));
  const worstSame = Math.max(...same.map((code, i) => Math.abs(code - codes[i]!)));
  console.log(
    `measured: made profiles in sRGB, of 65535: linear codes ${worst.toFixed(0)} off, its own ${worstSame}`,
  );
  // an eighth of a code of 8 bits: the module works with tables of its own
  expect(worst).toBeLessThan(32);
  expect(worstSame).toBeLessThan(32);
});

test('madeProfile(space, curve) is read back as what was put in', () => {
  const wide = {
    name: 'stated primaries',
    primaries: { red: [0.7, 0.3], green: [0.1, 0.8], blue: [0.12, 0.05] },
    white: [0.3457, 0.3585],
  } as const;
  const back = readIccProfile(madeProfile(wide, { exponent: 1.8 }));
  if (back.kind !== 'matrix') throw new Error(`it is read as ${back.kind}`);
  const { space } = profileColour(back);
  expect(space.name).toBe('stated primaries');
  for (const [own, its] of [
    [space.white, wide.white],
    [space.primaries.red, wide.primaries.red],
    [space.primaries.green, wide.primaries.green],
    [space.primaries.blue, wide.primaries.blue],
  ] as const)
    for (const i of [0, 1] as const) expect(own[i]).toBeCloseTo(its[i], 3);
  expect(back.curves.green).toMatchObject({ exponent: expect.closeTo(1.8, 4) });
  expect(readIccProfile(madeGreyProfile('grey', 'srgb')).kind).toBe('grey');
});

test('profileToWrite(stored, space, written) keeps the source’s own, and makes one only where it has to', () => {
  const { space } = linearise(stored({})).frame;
  const to = (format: 'tiff' | 'png' | 'jpeg', channels = 3) => ({ format, channels });
  expect(profileToWrite(stored({ iccProfile: p3Profile }), space, to('jpeg'))).toBe(p3Profile);
  expect(profileToWrite(stored({ iccProfile: new Uint8Array(0) }), space, to('tiff'))).toBeNull();
  expect(profileToWrite(stored({}), space, to('tiff'))).toBeNull();
  expect(profileToWrite(stored({ sRgbStated: true }), space, to('tiff'))).toBeNull();
  expect(profileToWrite(stored({ gamma: 1 }), space, to('png'))).toBeNull();
  expect(readIccProfile(profileToWrite(stored({ gamma: 1 }), space, to('tiff'))!).kind).toBe('matrix');
  expect(readIccProfile(profileToWrite(stored({ gamma: 1 }), space, to('tiff', 1))!).kind).toBe('grey');
  const grey = madeGreyProfile('grey', { exponent: 2 });
  expect(profileToWrite(stored({ iccProfile: grey }), space, to('tiff', 1))).toBe(grey);
  expect(readIccProfile(profileToWrite(stored({ iccProfile: grey }), space, to('jpeg', 1))!)).toMatchObject({
    kind: 'matrix',
    curves: { red: { exponent: 2 } },
  });
});

test('what a PNG states of its colours means the same in a TIFF’s profile', async () => {
  const chromaticities = {
    white: [0.3127, 0.329],
    red: [0.7, 0.3],
    green: [0.17, 0.75],
    blue: [0.14, 0.05],
  } as const;
  const file = wholeFile(await writePng(picture(), nodePlatform, { stated: { gamma: 2, chromaticities } }));
  const png = await decodeImage(file, nodePlatform);
  const own = linearise(png).frame;
  const iccProfile = profileToWrite(png, own.space, { format: 'tiff', channels: 3 });
  const its = linearise(stored({ iccProfile })).frame;
  expect(Math.max(...its.toXyz.map((value, i) => Math.abs(value - own.toXyz[i]!)))).toBeLessThan(0.0005);
  for (const code of [500, 9000, 40000])
    expect(its.lightAtCode.red[code]).toBeCloseTo(own.lightAtCode.red[code]!, 4);
});
