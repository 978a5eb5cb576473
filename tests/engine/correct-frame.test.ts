import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { type CorrectOptions, correctFrame } from '../../src/engine/correct-frame.ts';
import { EngineError } from '../../src/engine/engine-error.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import type { Profile } from '../../src/engine/profile/profile.ts';
import { nodePlatform } from '../node-platform.ts';
import { decodeSrgb } from '../synthetic/code-thresholds.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { render } from './blank-render.ts';
import { latticeOf, profileOf } from './correct/profile-of.ts';
import { p3Profile } from './export/known-profiles.ts';
import { decoded, exifFacts, wholeFile } from './export/read-back.ts';
import { iccBytes, nameElement } from './intake/icc-bytes.ts';
import { readBytes } from './known-frames.ts';

const { field } = randomField(77, { family: 'quadratic', spreadEv: 1, peak: 0.6 });
const exif = {
  orientation: 6,
  exposureTime: [1, 125],
  fNumber: [80, 10],
  iso: 100,
  focalLengthMm: 85,
  model: 'Camera 5',
} as const;
const gentle = profileOf(latticeOf(3, 3, (x, y) => [0.2 * x, 0.1 * y, 0.1 - 0.2 * x]));

const correct = (bytes: Uint8Array, options: CorrectOptions = {}, profile: Profile = gentle) =>
  correctFrame({ name: 'tumbler.jpg', bytes }, profile, options, nodePlatform);

const png16 = toPng(render(field), { icc: p3Profile, exif });
const colourJpeg = await toJpeg(render(field, { bits: 8 }), {
  quality: 95,
  chroma: '4:4:4',
  exif,
  icc: p3Profile,
});
const grey = sharp(render(field, { bits: 8 }).samples, {
  raw: { width: 480, height: 320, channels: 3 },
}).toColourspace('b-w');
const greyJpeg = new Uint8Array(await grey.jpeg({ quality: 95 }).toBuffer());
const withAlpha = new Uint8Array(
  await sharp(png16, { ignoreIcc: true }).ensureAlpha(0.5).toColourspace('rgb16').png().toBuffer(),
);

const tiff16 = wholeFile((await correct(png16)).parts); // with the Exif and profile that it had as a PNG

describe('correctFrame(source, profile, options) writes what another decoder reads as the source’s own:', () => {
  const sources = [
    { kind: 'a colour JPEG', bytes: colourJpeg, channels: 3 },
    { kind: 'a grey JPEG', bytes: greyJpeg, channels: 1 },
    { kind: 'a 16-bit PNG', bytes: png16, channels: 3 },
    { kind: 'a 16-bit TIFF that was corrected before', bytes: tiff16, channels: 3 },
    { kind: 'a PNG with alpha', bytes: withAlpha, channels: 4 },
  ];
  const outs = [
    { format: 'tiff', bits: 16, depth: 16, mime: 'image/tiff', extension: 'tif' },
    { format: 'tiff', bits: 8, depth: 8, mime: 'image/tiff', extension: 'tif' },
    { format: 'png', bits: 16, depth: 16, mime: 'image/png', extension: 'png' },
    { format: 'jpeg', bits: 16, depth: 8, mime: 'image/jpeg', extension: 'jpg' },
  ] as const;
  for (const { kind, bytes, channels } of sources)
    for (const { format, bits, depth, mime, extension } of outs)
      test(`${kind} as ${format} of ${depth} bits`, async () => {
        const before = createHash('sha256').update(bytes).digest('hex');
        const file = await correct(bytes, { format, bits });
        expect(file).toMatchObject({ mime, extension });
        const [own, its] = [await decoded(wholeFile(file.parts)), await decoded(bytes)];
        expect(own.bits).toBe(depth);
        expect(own.metadata.channels).toBe(format === 'jpeg' ? 3 : channels);
        expect([own.metadata.width, own.metadata.height]).toEqual([its.metadata.width, its.metadata.height]);
        expect(own.metadata.orientation ?? 1).toBe(its.metadata.orientation ?? 1);
        expect(own.metadata.icc).toEqual(its.metadata.icc);
        const facts = Object.entries(await exifFacts(bytes)).filter(([name]) =>
          /^(Expo|FN|ISO|Foc|Model)/.test(name),
        );
        if (kind.includes('TIFF')) expect(facts.length).toBeGreaterThan(3);
        expect(await exifFacts(wholeFile(file.parts))).toMatchObject(Object.fromEntries(facts));
        expect(createHash('sha256').update(bytes).digest('hex')).toBe(before);
      });
});

test('correctFrame(source, profile) makes light even in what is written, whatever the orientation', async () => {
  for (const orientation of [1, 6]) {
    const bytes = toPng(render(field), { exif: { orientation } });
    const profile = makeProfile(await readBytes(bytes));
    const { parts, flags } = await correct(bytes, {}, profile);
    expect(flags).toEqual(['This is the blank frame itself.']);
    const { samples } = await decoded(wholeFile(parts));
    let [darkest, brightest] = [65535, 0];
    for (const code of samples) {
      darkest = Math.min(darkest, code);
      brightest = Math.max(brightest, code);
    }
    const spread = Math.log2(decodeSrgb(brightest / 65535) / decodeSrgb(darkest / 65535));
    console.log(
      `measured: orientation ${orientation}: all channels of all pixels within ${spread.toFixed(4)} EV`,
    );
    expect(spread).toBeLessThan(0.02);
  }
});

test('correctFrame(source, profile, options) counts what its gains clip, and tells how far it is', async () => {
  const phases: [string, number][] = [];
  const lifted = profileOf(latticeOf(2, 2, () => [1.5, 1.5, 1.5]));
  const file = await correctFrame(
    { name: 'a.png', bytes: png16 },
    lifted,
    { format: 'png' },
    nodePlatform,
    (...news) => phases.push(news),
  );
  const { samples } = await decoded(wholeFile(file.parts));
  const pixels = samples.length / 3;
  let clipped = 0;
  for (let pixel = 0; pixel < pixels; pixel++)
    if ([0, 1, 2].some((channel) => samples[pixel * 3 + channel] === 65535)) clipped++;
  expect(file.clippedPixels).toBeGreaterThan(1000);
  expect(Math.abs(file.clippedPixels - clipped)).toBeLessThanOrEqual(pixels / 1000);
  expect(phases.map(([phase]) => phase).filter((phase, i, all) => phase !== all[i - 1])).toEqual([
    'opening',
    'decoding',
    'correcting',
    'writing',
  ]);
  expect(phases.at(-1)).toEqual(['writing', 1]);
  for (const [, fraction] of phases) expect(fraction >= 0 && fraction <= 1).toBe(true);
});

test('correctFrame(source, profile, { treat: "background-only", blank }) tells the background’s figures', async () => {
  const bytes = toPng(render(field));
  const profile = makeProfile(await readBytes(bytes));
  const file = await correct(
    bytes,
    { treat: 'background-only', blank: { name: 'blank.png', bytes } },
    profile,
  );
  expect(file.background!.before.spreadEv).toBeGreaterThan(0.3);
  expect(file.background!.after.spreadEv).toBeLessThan(0.02);
  await expect(correct(bytes, { treat: 'background-only' })).rejects.toThrow(RangeError);
});

describe('correctFrame(source, profile, options) refuses, with code and message:', () => {
  const bad = async (work: Promise<unknown>) => {
    const error = await work.then(
      () => null,
      (thrown: unknown) => thrown,
    );
    expect(error).toBeInstanceOf(EngineError);
    return error as EngineError;
  };
  const lattice = gentle.lattice;
  const profiles: [string, object, RegExp][] = [
    ['a profile of another schema', { schema: 'evenfield.profile/2' }, /schema is evenfield\.profile\/2/],
    [
      'a profile with NaN',
      { lattice: { ...lattice, red: lattice.red.with(4, Number.NaN) } },
      /lattice\.red\[4\] is no number/,
    ],
    [
      'a lattice of the wrong length',
      { lattice: { ...lattice, blue: lattice.blue.slice(1) } },
      /lattice\.blue is a list of 8; expected 9/,
    ],
    [
      'a profile of another camera’s own colours',
      { colourSpace: { name: 'camera-native', camera: 'Camera 9' } },
      /Camera 9/,
    ],
  ];
  for (const [name, change, says] of profiles)
    test(name, async () => {
      const error = await bad(correct(png16, {}, { ...gentle, ...change } as Profile));
      expect(error.code).toBe('wrong-profile');
      expect(error.message).toMatch(says);
    });

  test('a black subject frame', async () => {
    const black = toPng(render(() => [0.0004, 0.0003, 0.0002]));
    const error = await bad(correct(black));
    expect(error.code).toBe('no-light');
    expect(error.message).toContain('The frame is black: no pixel holds light');
  });

  test('but not a rim of light before black', async () => {
    const rim = toPng(render((x) => (x > 0.5 && x < 0.504 ? [0.4, 0.4, 0.4] : [0.0002, 0.0002, 0.0002])));
    expect((await correct(rim)).parts.length).toBeGreaterThan(0);
  });

  test('a damaged blank, saying that it is the blank', async () => {
    const blank = { name: 'blank.png', bytes: png16.subarray(0, 5000) };
    const error = await bad(correct(png16, { blank }));
    expect(error.code).toBe('unreadable-file');
    expect(error.message).toContain('The blank frame blank.png: The PNG ends after 5000 bytes');
  });

  test('a JPEG that the platform can’t encode', async () => {
    const platform = { ...nodePlatform, encodeJpeg: () => Promise.reject(new Error('no canvas to be had')) };
    const error = await bad(
      correctFrame({ name: 'a.png', bytes: png16 }, gentle, { format: 'jpeg' }, platform),
    );
    expect(error.code).toBe('cannot-write');
    expect(error.message).toContain('480 × 320 pixels can’t be encoded here (no canvas to be had)');
  });

  test('a picture that memory has no room for', async () => {
    const platform = {
      ...nodePlatform,
      sha256Hex: () => Promise.reject(new RangeError('Array buffer allocation failed')),
    };
    const error = await bad(correctFrame({ name: 'a.png', bytes: png16 }, gentle, {}, platform));
    expect(error.code).toBe('too-large');
    expect(error.message).toContain('not enough memory here to correct 480 × 320 pixels');
  });

  test('options that there are not, as a programmer’s mistake', async () => {
    for (const options of [{ format: 'gif' }, { bits: 12 }, { treat: 'nothing' }, { levelEv: Number.NaN }])
      await expect(correct(png16, options as CorrectOptions)).rejects.toThrow(RangeError);
  });
});

describe('correctFrame(source, profile) corrects, and says of', () => {
  const flagsOf = async (bytes: Uint8Array, options: CorrectOptions = {}) =>
    (
      await correct(bytes, options, {
        ...gentle,
        madeFrom: { ...gentle.madeFrom, widthPx: 480, heightPx: 320 },
      })
    ).flags;
  test('a frame like the blank: nothing', async () => {
    expect(await flagsOf(toPng(render(field)))).toEqual([]);
  });
  test('a larger frame and a turned one', async () => {
    expect((await flagsOf(toPng(render(field, { widthPx: 960, heightPx: 640 })))).join()).toMatch(
      /another size.*960 × 640/,
    );
    expect((await flagsOf(toPng(render(field), { exif: { orientation: 8 } }))).join()).toMatch(
      /turned by a quarter/,
    );
  });
  test('a frame of another camera than its blank’s', async () => {
    const blank = { name: 'blank.png', bytes: toPng(render(field), { exif: { model: 'Camera 9' } }) };
    const own = toPng(render(field), { exif: { model: 'Camera 5' } });
    expect((await flagsOf(own, { blank })).join()).toContain(
      'another camera (Camera 5) than the blank (Camera 9)',
    );
    expect(await flagsOf(own, { blank: { name: 'blank.png', bytes: own } })).toEqual([]);
    const blankFacts = { model: 'Camera 9', subjectDistanceM: 2 };
    expect((await flagsOf(own, { blankFacts })).join()).toContain('another camera (Camera 5)');
    const near = toPng(render(field), { exif: { model: 'Camera 9', subjectDistance: [120, 100] } });
    expect(await flagsOf(near, { blankFacts })).toEqual([
      expect.stringContaining('focused at 1.2 m; for the blank at 2 m'),
    ]);
  });
  test('a profile that can’t be gone by, which is carried on all the same', async () => {
    const icc = iccBytes({ desc: nameElement('Scan'), A2B0: new Uint8Array(40) });
    const bytes = toPng(render(field), { icc });
    expect(await flagsOf(bytes)).toEqual([
      'The embedded profile “Scan” holds tables only, which are damaged, so sRGB is assumed.',
    ]);
    expect(Buffer.from(wholeFile((await correct(bytes)).parts)).includes(Buffer.from(icc))).toBe(true);
  });
  test('IPTC notes of a JPEG, and no other ones of their segment', async () => {
    const withNotes = (number: number) => {
      const notes = Buffer.from(`........8BIM\0${String.fromCharCode(number)}\0\0\0\0\0\x04note`, 'latin1');
      notes[12] = 4;
      const head = Uint8Array.of(0xff, 0xed, 0, notes.length + 2);
      return new Uint8Array(Buffer.concat([greyJpeg.subarray(0, 2), head, notes, greyJpeg.subarray(2)]));
    };
    expect(await flagsOf(withNotes(4))).toEqual([expect.stringContaining('Its IPTC notes')]);
    expect(await flagsOf(withNotes(0x22))).toEqual([]);
  });
  test('transparency that a JPEG can’t hold', async () => {
    expect((await flagsOf(withAlpha, { format: 'jpeg' })).join()).toContain('A JPEG holds no transparency');
  });
});
