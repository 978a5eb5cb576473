import sharp from 'sharp';
import { expect, test } from 'vitest';
import { codeLimits } from '../../../src/engine/frame/code-limits.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { heldChannels } from '../../../src/engine/intake/held-channels.ts';
import { readWebpChunks } from '../../../src/engine/intake/webp-chunks.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { nodePlatform } from '../../node-platform.ts';
import { p3Profile } from '../export/known-profiles.ts';
import { noiseSamples } from './png-bytes.ts';
import { rejectionOf } from './rejection-code.ts';

const WIDTH_PX = 37;
const HEIGHT_PX = 29;

function picture(channels: 3 | 4 = 3) {
  const codes = Uint8Array.from(noiseSamples(WIDTH_PX * HEIGHT_PX * channels, 8));
  return { codes, image: sharp(codes, { raw: { width: WIDTH_PX, height: HEIGHT_PX, channels } }) };
}

const open = async (bytes: Uint8Array) => decodeImage(new Uint8Array(bytes), nodePlatform);

test('decodeWebpFile gives the codes of a lossless file, and what it says beside them', async () => {
  const { codes, image } = picture();
  const stored = await open(
    await image
      .keepIccProfile()
      .withExif({ IFD0: { Model: 'Camera 9' }, IFD2: { FNumber: '56/10' } })
      .withMetadata({ orientation: 6 })
      .webp({ lossless: true })
      .toBuffer(),
  );
  expect(stored).toMatchObject({ format: 'webp', widthPx: WIDTH_PX, heightPx: HEIGHT_PX, orientation: 6 });
  expect(stored).toMatchObject({ channels: 4, isOpaque: true, isLossy: false, readingSays: [] });
  expect(heldChannels(stored)).toBe(3);
  expect(codeLimits(stored)).toEqual({ clipCode: 255, floorCode: 0 });
  for (let pixel = 0; pixel < codes.length / 3; pixel++)
    for (const c of [0, 1, 2]) expect(stored.samples[4 * pixel + c]).toBe(codes[3 * pixel + c]);
  expect(stored.exposure?.fNumber).toBe(5.6);
});

test('decodeWebpFile hands on an ICC profile and does not apply it', async () => {
  const { image } = picture();
  const plain = await image.webp({ lossless: true }).toBuffer();
  const tagged = await sharp(plain).withIccProfile('p3').webp({ lossless: true }).toBuffer();
  const stored = await open(tagged);
  expect(stored.iccProfile).toEqual(p3Profile);
  const { data } = await sharp(tagged, { ignoreIcc: true }).raw().toBuffer({ resolveWithObject: true });
  expect(stored.samples[0]).toBe(data[0]);
  expect(stored.samples[9]).toBe(data[7]);
});

test('decodeWebpFile says that a file was coded with losses, is transparent, or moves', async () => {
  const lossy = await open(await picture().image.webp({ quality: 90 }).toBuffer());
  expect(lossy.isLossy).toBe(true);
  expect(codeLimits(lossy)).toEqual({ clipCode: 254, floorCode: 1 });
  expect(lossy.readingSays!.join()).toContain('leaves smooth light in steps');
  const clear = await open(await picture(4).image.webp({ lossless: true }).toBuffer());
  expect([clear.isOpaque, heldChannels(clear)]).toEqual([false, 4]);
  expect(clear.readingSays!.join()).toContain('Parts of it are transparent');
  const stack = Uint8Array.from(noiseSamples(40 * 60 * 3, 8));
  const moving = sharp(stack, { raw: { width: 40, height: 60, channels: 3, pageHeight: 20 } });
  const first = await open(await moving.webp({ lossless: true }).toBuffer());
  expect([first.widthPx, first.heightPx]).toEqual([40, 20]);
  expect(first.readingSays!.join()).toContain('It moves (3 pictures); the first picture is read');
  expect([0, 1, 2].map((c) => first.samples[c])).toEqual([...stack.subarray(0, 3)]);
});

test('readWebpChunks lays a file bare of what would turn or convert it, and keeps its pixels', async () => {
  const { image } = picture(4);
  const noted = await image.withMetadata({ orientation: 6, icc: 'p3' }).webp({ lossless: true }).toBuffer();
  const { bare } = readWebpChunks(new Uint8Array(noted));
  const metadata = await sharp(bare).metadata();
  expect(metadata).toMatchObject({ hasProfile: false, hasAlpha: true, width: WIDTH_PX });
  expect(metadata.orientation).toBeUndefined();
  const codes = (file: Uint8Array) => sharp(file, { ignoreIcc: true }).raw().toBuffer();
  expect(Buffer.compare(await codes(bare), await codes(noted))).toBe(0);
});

test('decodeWebpFile answers cut and bent files with a picture or a code', async () => {
  const whole = new Uint8Array(
    await picture().image.withMetadata({ orientation: 3, icc: 'p3' }).webp({ quality: 80 }).toBuffer(),
  );
  for (const length of [13, 25, 60, 400, whole.length - 1])
    expect((await rejectionOf(whole.slice(0, length))).code).toBe('unreadable-file');
  const { uniform } = seededRandom(6);
  const outcomes = new Map<string, number>();
  for (let i = 0; i < 200; i++) {
    const bent = whole.slice();
    for (let hit = 0; hit <= i % 3; hit++)
      bent[8 + Math.floor(uniform() ** 2 * (bent.length - 8))] = uniform() * 256;
    const outcome = await decodeImage(bent, nodePlatform).then(
      () => 'image',
      (error) => String(error.code),
    );
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  }
  console.log(`measured: bent WebPs: ${JSON.stringify([...outcomes])}`);
  expect([...outcomes.keys()]).not.toContain('undefined');
  expect(outcomes.get('unreadable-file')).toBeGreaterThan(10);
});
