import exifr from 'exifr';
import { decode } from 'fast-png';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { toJpeg, toPng } from './encode.ts';
import { randomField } from './known-field.ts';
import { type RenderedFrame, renderFrame } from './render-frame.ts';
import { storedAs } from './turn-frame.ts';

const { field } = randomField(11);
const render = (bits: 8 | 16) =>
  renderFrame(field, { widthPx: 61, heightPx: 43, bits, curve: 'srgb', electronsAtFull: 30_000, seed: 3 });

test('toPng(frame) at 8 and 16 bits gives a second decoder exactly the codes put in', () => {
  for (const bits of [8, 16] as const) {
    const frame = render(bits);
    const read = decode(toPng(frame, { gamma: 2.2, exif: { orientation: 1 } }), { checkCrc: true });
    expect([read.width, read.height, read.depth, read.channels]).toEqual([61, 43, bits, 3]);
    expect(read.data).toEqual(frame.samples);
  }
});

test('toPng(frame, { icc }) carries the profile byte for byte', () => {
  const icc = Uint8Array.from({ length: 700 }, (_, i) => (i * 31) & 255);
  expect(decode(toPng(render(8), { icc })).iccEmbeddedProfile?.profile).toEqual(icc);
});

test('toJpeg(frame) decodes to within a few codes and carries its Exif', async () => {
  const frame = renderFrame(field, {
    widthPx: 64,
    heightPx: 48,
    bits: 8,
    curve: 'srgb',
    electronsAtFull: null,
    seed: 1,
  });
  const exif = {
    exposureTime: [1, 125],
    fNumber: [56, 10],
    iso: 200,
    focalLengthMm: 85,
    takenAt: '2026:03:01 10:20:30',
    colourSpace: 1,
  } as const;
  for (const chroma of ['4:4:4', '4:2:0'] as const) {
    const bytes = await toJpeg(frame, { quality: 95, chroma, exif, exifOrientation: 6 });
    const read = await sharp(bytes).raw().toBuffer();
    let largest = 0;
    read.forEach((code, i) => {
      largest = Math.max(largest, Math.abs(code - frame.samples[i]!));
    });
    console.log(`measured: JPEG quality 95 ${chroma} differs by at most ${largest} codes`);
    expect(largest).toBeLessThanOrEqual(4);
    const said = await exifr.parse(bytes, { translateValues: false });
    expect([said.ExposureTime, said.FNumber, said.ISO, said.FocalLength, said.Orientation]).toEqual([
      1 / 125,
      5.6,
      200,
      85,
      6,
    ]);
    expect((await sharp(bytes).metadata()).chromaSubsampling).toBe(chroma);
  }
});

test('storedAs(frame, orientation) is turned upright again by a decoder that obeys Exif, all eight', async () => {
  const upright = render(8);
  for (let orientation = 1; orientation <= 8; orientation++) {
    const bytes = toPng(storedAs(upright, orientation), { exif: { orientation } });
    const tag = await sharp(bytes).metadata();
    expect(tag.orientation).toBe(orientation);
    const seen = await sharp(bytes).autoOrient().raw().toBuffer({ resolveWithObject: true });
    expect([seen.info.width, seen.info.height]).toEqual([upright.widthPx, upright.heightPx]);
    expect(differingCodes(upright, seen.data), `orientation ${orientation}`).toBe(0);
  }
});

const differingCodes = (frame: RenderedFrame, codes: Uint8Array) =>
  codes.reduce((count, code, i) => count + (code === frame.samples[i] ? 0 : 1), 0);
