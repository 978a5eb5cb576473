import exifr from 'exifr';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { correctFrame } from '../../../src/engine/correct-frame.ts';
import { writeJpeg } from '../../../src/engine/export/write-jpeg.ts';
import { writePicture } from '../../../src/engine/export/write-picture.ts';
import { xmpToWrite } from '../../../src/engine/export/xmp-to-write.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import { latticeOf, profileOf } from '../correct/profile-of.ts';
import { tumblerExif } from './exif-of-camera.ts';
import { picture, wholeFile } from './read-back.ts';

const packet = (inside: string) =>
  new Uint8Array(
    Buffer.from(
      `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:dc="http://purl.org/dc/elements/1.1/" xmp:Rating="4"><dc:title><rdf:Alt><rdf:li xml:lang="x-default">Rauchglas, groß</rdf:li></rdf:Alt></dc:title>${inside}</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end="w"?>`,
    ),
  );
const thumbnails = '<xmp:Thumbnails><rdf:Alt><rdf:li>AAAA</rdf:li></rdf:Alt></xmp:Thumbnails>';

for (const format of ['tiff', 'png', 'jpeg'] as const)
  test(`XMP is carried into a ${format} and read back by two other decoders and by the intake`, async () => {
    const xmp = packet('');
    const bitsPerSample = format === 'jpeg' ? 8 : 16;
    const given = picture({ bitsPerSample, xmp, exif: tumblerExif('II'), orientation: 6 });
    const file = wholeFile((await writePicture(given, format, nodePlatform)).parts);
    expect(Buffer.compare((await sharp(file).metadata()).xmp!, xmp)).toBe(0);
    const facts = (await exifr.parse(file, { xmp: true, mergeOutput: true })) as Record<string, unknown>;
    expect(facts).toMatchObject({ Rating: 4, Model: 'Camera 5' });
    if (format !== 'tiff') expect((await decodeImage(file, nodePlatform)).xmp).toEqual(xmp);
  });

test('correctFrame(source, profile) carries XMP from a JPEG into a TIFF', async () => {
  const xmp = packet('');
  const bytes = wholeFile(await writeJpeg(picture({ bitsPerSample: 8, xmp }), nodePlatform));
  const nothing = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
  const { parts } = await correctFrame({ name: 'a.jpg', bytes }, nothing, {}, nodePlatform);
  expect(Buffer.compare((await sharp(wholeFile(parts)).metadata()).xmp!, xmp)).toBe(0);
});

test('xmpToWrite(picture) leaves thumbnails behind and every other byte as it is', () => {
  const written = xmpToWrite(picture({ xmp: packet(thumbnails) }))!;
  expect(Buffer.compare(written, packet(''))).toBe(0);
  expect(Buffer.from(written).includes('groß')).toBe(true);
});

test('xmpToWrite(picture) is nothing where there is none, or no room for it', async () => {
  expect(xmpToWrite(picture())).toBeNull();
  expect(xmpToWrite(picture({ xmp: new Uint8Array(0) }))).toBeNull();
  const long = packet(`<dc:description>${'x'.repeat(70_000)}</dc:description>`);
  const file = wholeFile(await writeJpeg(picture({ bitsPerSample: 8, xmp: long }), nodePlatform));
  expect((await sharp(file).metadata()).xmp).toBeUndefined();
});
