import { toJpeg } from '../../synthetic/encode.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';
import { chunk, join } from '../intake/png-bytes.ts';
import { exifOfCamera } from './exif-of-camera.ts';

/** Every word in it that could tell a person begins so, and nothing else does. */
export const PERSONAL = 'ZzOwn';

const word = (of: string) => `${PERSONAL}-${of}`;
const inUtf16 = (text: string) => new Uint8Array(Buffer.from(`${text}\0`, 'utf16le'));

/** 48° 8′ 14″ north, 11° 34′ 31″ east: as cameras write a place. */
const PLACE = [
  { tag: 1, type: 'ascii', value: 'N' },
  { tag: 2, type: 'rational', value: [48, 1, 8, 1, 14, 1] },
  { tag: 3, type: 'ascii', value: 'E' },
  { tag: 4, type: 'rational', value: [11, 1, 34, 1, 31, 1] },
  { tag: 27, type: 'undefined', value: new Uint8Array(Buffer.from(`ASCII\0\0\0${word('place')}`)) },
] as const;

/** Exif as a camera writes it whose owner has entered a name: with serial numbers, a place, and a note of its own. */
export const PERSONAL_EXIF = exifOfCamera('II', {
  main: [
    { tag: 270, type: 'ascii', value: word('caption') },
    { tag: 271, type: 'ascii', value: 'Maker' },
    { tag: 272, type: 'ascii', value: 'Camera 5' },
    { tag: 274, type: 'short', value: [6] },
    { tag: 315, type: 'ascii', value: word('artist') },
    { tag: 316, type: 'ascii', value: word('computer') },
    { tag: 33432, type: 'ascii', value: word('copyright') },
    {
      tag: 34665,
      type: 'directory',
      value: [
        { tag: 33434, type: 'rational', value: [1, 125] },
        { tag: 33437, type: 'rational', value: [56, 10] },
        { tag: 34855, type: 'short', value: [100] },
        { tag: 36867, type: 'ascii', value: '2026:03:01 10:20:30' },
        { tag: 36881, type: 'ascii', value: '+05:45' },
        { tag: 37386, type: 'rational', value: [850, 10] },
        { tag: 37500, type: 'undefined', value: new Uint8Array(Buffer.from(`Note ${word('note')}`)) },
        {
          tag: 37510,
          type: 'undefined',
          value: new Uint8Array(Buffer.from(`ASCII\0\0\0${word('comment')}`)),
        },
        {
          tag: 40965,
          type: 'directory',
          value: [
            { tag: 1, type: 'ascii', value: 'R98' },
            { tag: 4096, type: 'ascii', value: word('inner') },
          ],
        },
        { tag: 42016, type: 'ascii', value: word('unique') },
        { tag: 42032, type: 'ascii', value: word('owner') },
        { tag: 42033, type: 'ascii', value: word('body-serial') },
        { tag: 42036, type: 'ascii', value: 'Lens 85' },
        { tag: 42037, type: 'ascii', value: word('lens-serial') },
      ],
    },
    { tag: 34853, type: 'directory', value: PLACE },
    { tag: 40093, type: 'undefined', value: inUtf16(word('author')) },
  ],
});

export const PERSONAL_XMP = new Uint8Array(
  Buffer.from(
    `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:aux="http://ns.adobe.com/exif/1.0/aux/" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:exif="http://ns.adobe.com/exif/1.0/" aux:SerialNumber="${word('xmp-serial')}" exif:GPSLatitude="48,8.2333N" exif:GPSLongitude="11,34.5167E"><dc:creator><rdf:Seq><rdf:li>${word('xmp-creator')}</rdf:li></rdf:Seq></dc:creator></rdf:Description></rdf:RDF></x:xmpmeta>`,
  ),
);

/** An 8-bit frame as a JPEG with both. */
export async function personalJpeg(frame: RenderedFrame): Promise<Uint8Array> {
  const plain = await toJpeg(frame, { quality: 92, chroma: '4:4:4' });
  const lead = (text: string, payload: Uint8Array) => join(Buffer.from(text, 'latin1'), payload);
  const parts = [
    segment(lead('Exif\0\0', PERSONAL_EXIF)),
    segment(lead('http://ns.adobe.com/xap/1.0/\0', PERSONAL_XMP)),
  ];
  return join(plain.subarray(0, 2), ...parts, plain.subarray(2));
}

function segment(payload: Uint8Array): Uint8Array {
  const length = payload.length + 2;
  return join(Uint8Array.of(0xff, 0xe1, length >> 8, length & 255), payload);
}

/** The same put into a PNG, behind its header. */
export function personalPng(plain: Uint8Array): Uint8Array {
  const xmp = join(Buffer.from('XML:com.adobe.xmp\0\0\0\0\0', 'latin1'), PERSONAL_XMP);
  const headerEnd = 8 + 25;
  return join(
    plain.subarray(0, headerEnd),
    chunk('eXIf', PERSONAL_EXIF),
    chunk('iTXt', xmp),
    plain.subarray(headerEnd),
  );
}

/** Words of it that some bytes hold, in one byte a letter or in two. */
export function personalWordsIn(bytes: Uint8Array): string[] {
  const latin = Buffer.from(bytes).toString('latin1');
  const found = latin.match(new RegExp(`${PERSONAL}-[\\w-]+`, 'g')) ?? [];
  const wide =
    Buffer.from(bytes).indexOf(Buffer.from(PERSONAL, 'utf16le')) >= 0 ? [`${PERSONAL} in UTF-16`] : [];
  return [...found, ...wide];
}
