import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { orientationOfSteps } from '../../../src/engine/intake/heif-orientation.ts';
import type { StoredImage } from '../../../src/engine/intake/stored-image.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { nodePlatform } from '../../node-platform.ts';
import { p3Profile } from '../export/known-profiles.ts';
import { avifWithProperty, box, nclx } from './avif-with-property.ts';
import { rejectionOf } from './rejection-code.ts';

const WIDTH_PX = 48;
const HEIGHT_PX = 32;

/** Four unlike corners. */
const CODES = Uint8Array.from({ length: WIDTH_PX * HEIGHT_PX * 3 }, (_, i) => {
  const pixel = Math.floor(i / 3);
  const isRight = pixel % WIDTH_PX >= WIDTH_PX / 2;
  const isLow = Math.floor(pixel / WIDTH_PX) >= HEIGHT_PX / 2;
  return [isRight ? 60 : 200, isLow ? 90 : 180, isRight === isLow ? 70 : 120][i % 3]!;
});
const image = () => sharp(CODES, { raw: { width: WIDTH_PX, height: HEIGHT_PX, channels: 3 } });
const avif = { quality: 95, chromaSubsampling: '4:4:4', effort: 2 } as const;
const plain = new Uint8Array(await image().avif(avif).toBuffer());
const open = (bytes: Uint8Array) => decodeImage(new Uint8Array(bytes), nodePlatform);

/** The plain file with other numbers in its stream's header, found by the three that the library writes there. */
function withStreamColour(primaries: number, transfer: number): Uint8Array {
  const bits = [...plain].map((byte) => byte.toString(2).padStart(8, '0')).join('');
  const number = (value: number) => value.toString(2).padStart(8, '0');
  const found = [1, 13, 6].map(number).join('');
  expect(bits.split(found).length).toBe(2);
  const changed = bits.replace(found, [primaries, transfer, 6].map(number).join(''));
  return Uint8Array.from(plain, (_, i) => Number.parseInt(changed.slice(8 * i, 8 * i + 8), 2));
}

/** Mean codes of the four corners as seen. */
function corners({ samples, widthPx, heightPx, orientation }: StoredImage): number[] {
  const isTurned = orientation > 4;
  const [across, down] = isTurned ? [heightPx, widthPx] : [widthPx, heightPx];
  return [
    [4, 4],
    [across - 5, 4],
    [4, down - 5],
    [across - 5, down - 5],
  ].flatMap(([x, y]) => {
    // Source of the eight places: Exif (CIPA DC-008), tag 274
    const [u, v] = [x!, y!];
    const at = [
      [u, v],
      [widthPx - 1 - u, v],
      [widthPx - 1 - u, heightPx - 1 - v],
      [u, heightPx - 1 - v],
      [v, u],
      [v, heightPx - 1 - u],
      [widthPx - 1 - v, heightPx - 1 - u],
      [widthPx - 1 - v, u],
    ][orientation - 1]!;
    const from = 4 * (at[1]! * widthPx + at[0]!);
    return [...samples.subarray(from, from + 3)];
  });
}

test('decodeAvifFile gives 8-bit codes as stored, and what it says beside them', async () => {
  const stored = await open(
    await image()
      .withExif({ IFD2: { FNumber: '56/10' } })
      .avif(avif)
      .toBuffer(),
  );
  expect(stored).toMatchObject({ format: 'avif', widthPx: WIDTH_PX, heightPx: HEIGHT_PX, orientation: 1 });
  expect(stored).toMatchObject({ channels: 4, bitsPerSample: 8, isOpaque: true, isLossy: true });
  expect(stored.exposure?.fNumber).toBe(5.6);
  const worst = CODES.reduce((most, code, i) => {
    const read = stored.samples[4 * Math.floor(i / 3) + (i % 3)]!;
    return Math.max(most, Math.abs(read - code));
  }, 0);
  console.log(`measured: AVIF of quality 95: codes at most ${worst} off`);
  expect(worst).toBeLessThan(6);
});

test('decodeAvifFile reads each turning upright, exactly once, as a library shows it', async () => {
  const wanted = corners(await open(plain));
  for (let orientation = 1; orientation <= 8; orientation++) {
    const file = await image().withMetadata({ orientation }).avif(avif).toBuffer();
    const stored = await open(file);
    expect([stored.widthPx, stored.heightPx]).toEqual([WIDTH_PX, HEIGHT_PX]);
    expect(stored.orientation).toBe(orientation);
    // the library turns by itself; what it shows is then stored upright
    const shown = await sharp(file).png().toBuffer();
    const shownCorners = corners(await open(new Uint8Array(shown)).then(asRgba));
    const read = corners(stored);
    for (const [i, code] of read.entries()) expect(Math.abs(code - shownCorners[i]!)).toBeLessThan(6);
    if (orientation === 1)
      for (const [i, code] of read.entries()) expect(Math.abs(code - wanted[i]!)).toBeLessThan(6);
  }
});

function asRgba(stored: StoredImage): StoredImage {
  const { samples, channels } = stored;
  const rgba = Uint8Array.from({ length: (samples.length / channels) * 4 }, (_, i) =>
    i % 4 === 3 ? 255 : samples[Math.floor(i / 4) * channels + (i % 4)]!,
  );
  return { ...stored, channels: 4, samples: rgba };
}

test('orientationOfSteps composes turns and mirrors in their order', () => {
  expect(orientationOfSteps([])).toBe(1);
  expect([1, 2, 3].map((count) => orientationOfSteps([{ kind: 'quarters-left', count }]))).toEqual([8, 3, 6]);
  expect([0, 1].map((axis) => orientationOfSteps([{ kind: 'mirror', axis }]))).toEqual([4, 2]);
  const left = { kind: 'quarters-left', count: 1 } as const;
  const mirror = { kind: 'mirror', axis: 1 } as const;
  expect(orientationOfSteps([left, mirror])).not.toBe(orientationOfSteps([mirror, left]));
  expect(orientationOfSteps([mirror, mirror, left, left, left, left])).toBe(1);
});

describe('decodeAvifFile reads colours as the file states them:', () => {
  test('an ICC profile, handed on and not applied', async () => {
    const tagged = new Uint8Array(await sharp(plain).withIccProfile('p3').avif(avif).toBuffer());
    const stored = await open(tagged);
    expect(stored.iccProfile).toEqual(p3Profile);
    const codes = await sharp(tagged, { ignoreIcc: true }).raw().toBuffer();
    expect(Math.abs(stored.samples[0]! - codes[0]!)).toBeLessThanOrEqual(1);
  });
  test('code points, sRGB’s own among them', async () => {
    const stated = (primaries: number, transfer: number) =>
      open(avifWithProperty(plain, box('colr', nclx(primaries, transfer))));
    const p3 = await stated(12, 13);
    expect(p3).toMatchObject({ codePoints: { primaries: 12, transfer: 13 }, sRgbStated: false });
    expect(p3.samples).toEqual((await open(plain)).samples);
    expect(await stated(1, 13)).toMatchObject({ codePoints: null, sRgbStated: true });
    expect(await stated(2, 2)).toMatchObject({ codePoints: null, sRgbStated: false });
  });
  test('the stream’s own header, where nothing else states them', async () => {
    expect(await open(plain)).toMatchObject({ codePoints: null, sRgbStated: true }); // as this library writes it
    expect(await open(withStreamColour(12, 4))).toMatchObject({ codePoints: { primaries: 12, transfer: 4 } });
    const error = await rejectionOf(withStreamColour(9, 16));
    expect(error.message).toMatch(/The AVIF is coded for high dynamic range, by PQ/);
    const tagged = avifWithProperty(withStreamColour(9, 16), box('colr', nclx(12, 13)));
    expect(await open(tagged)).toMatchObject({ codePoints: { primaries: 12, transfer: 13 } });
  });
  test.each([
    [16, /The AVIF is coded for high dynamic range, by PQ/],
    [18, /by HLG/],
  ] as const)('high dynamic range (%i), by refusing it', async (transfer, reason) => {
    const error = await rejectionOf(avifWithProperty(plain, box('colr', nclx(9, transfer, 9))));
    expect(error.code).toBe('unsupported-file');
    expect(error.message).toMatch(reason);
  });
});

test('decodeAvifFile says where a file holds more than 8 bits, or is transparent', async () => {
  const deep = Uint16Array.from(CODES, (code) => code * 257);
  const raw = { width: WIDTH_PX, height: HEIGHT_PX, channels: 3 } as const;
  for (const bitdepth of [10, 12] as const) {
    const file = await sharp(deep, { raw })
      .toColourspace('rgb16')
      .avif({ ...avif, bitdepth })
      .toBuffer();
    const stored = await open(file);
    expect(stored.bitsPerSample).toBe(8);
    expect(stored.readingSays!.join()).toContain(`It holds ${bitdepth} bits a sample`);
    expect(Math.abs(stored.samples[0]! - 200)).toBeLessThan(5);
  }
  const clear = await open(await image().ensureAlpha(0.5).avif(avif).toBuffer());
  expect(clear.isOpaque).toBe(false);
  expect(clear.readingSays!.join()).toContain('transparent');
});

test('decodeHeicFile says what to do where the platform does not decode it', async () => {
  const heic = plain.slice();
  heic.set(Buffer.from('heic', 'latin1'), 8);
  const error = await rejectionOf(heic);
  expect(error.code).toBe('unsupported-file');
  expect(error.message).toMatch(/does not decode HEIC pictures\. Export it as .*TIFF/);
});

test('decodeAvifFile says so of a film, which holds no still picture', async () => {
  const film = Buffer.concat([box('ftyp', [...Buffer.from('avis\0\0\0\0avis', 'latin1')]), box('moov', [])]);
  const error = await rejectionOf(new Uint8Array(film));
  expect([error.code, error.message]).toEqual(['unsupported-file', expect.stringContaining('holds a film')]);
});

test('decodeAvifFile answers cut and bent files with a picture or a code', async () => {
  for (const length of [20, 60, 200, 260, plain.length - 1])
    expect((await rejectionOf(plain.slice(0, length))).code).toBe('unreadable-file');
  const { uniform } = seededRandom(8);
  const outcomes = new Map<string, number>();
  for (let i = 0; i < 200; i++) {
    const bent = plain.slice();
    for (let hit = 0; hit <= i % 3; hit++)
      bent[12 + Math.floor(uniform() * (bent.length - 12))] = uniform() * 256;
    const outcome = await decodeImage(bent, nodePlatform).then(
      () => 'image',
      (error) => String(error.code),
    );
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  }
  console.log(`measured: bent AVIFs: ${JSON.stringify([...outcomes])}`);
  expect([...outcomes.keys()]).not.toContain('undefined');
  expect(outcomes.get('unreadable-file')).toBeGreaterThan(20);
});
