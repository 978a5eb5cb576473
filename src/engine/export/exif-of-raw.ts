import type { StoredImage } from '../intake/stored-image.ts';
import { openTiffDirectory } from '../intake/tiff-directory.ts';
import type { Exposure } from '../reading.ts';
import { type ExifTree, exifBlockOf, exifTree } from './exif-tree.ts';
import { rationalField, shortField, type TiffField, textField } from './tiff-field.ts';
import { tiffBlockOf } from './tiff-layout.ts';

const EXIF_DIRECTORY = 34665;
const XMP = 700;
/** Above it stand tags of raw files' own, which would make a reader take the developed picture for a sensor's cells. */
const LAST_PLAIN_TAG = 32767;
/** Copyright, and what cameras write of a shot into the first directory too (TIFF/EP, ISO 12234-2). */
const KEPT_BEYOND = new Set([
  ...[33432, 33434, 33437, 34850, 34855, 36867, 36868],
  ...[37377, 37378, 37379, 37380, 37381, 37382, 37383, 37384, 37385, 37386],
  ...[40091, 40092, 40093, 40094, 40095],
]);
/** Colour space and size: of a picture that the camera made, not of this one. */
const OF_ITS_OWN_PICTURE = new Set([40961, 40962, 40963]);

/** What a raw file's Exif says of the shot, without what it says of cells; made from the little that is known where it has none. */
export function exifOfRaw({ exif, exposure, raw }: StoredImage): Uint8Array | null {
  const tree = exif && exifTree(exif);
  if (!tree) return madeExif(exposure, raw?.camera ?? '');
  const kept: ExifTree = {
    ...tree,
    main: tree.main.filter(({ tag }) => tag <= LAST_PLAIN_TAG || KEPT_BEYOND.has(tag)),
    children: tree.children.map(({ tag, tree: child }) => ({
      tag,
      tree: {
        ...child,
        fields: child.fields.filter((field) => tag !== EXIF_DIRECTORY || !OF_ITS_OWN_PICTURE.has(field.tag)),
      },
    })),
  };
  return exifBlockOf(kept);
}

/** What of its notes a developed raw file will not hold. */
export function leftOfRaw({ exif }: StoredImage): string[] {
  const xmp = exif ? openTiffDirectory(exif, null)?.bytes(XMP) : null;
  return xmp?.length
    ? ['The raw file’s XMP (captions, ratings, an editor’s own settings) is not carried on.']
    : [];
}

function madeExif(exposure: Exposure | null, camera: string): Uint8Array | null {
  const { seconds, fNumber, iso, focalLengthMm, takenAt } = exposure ?? {};
  const fields: TiffField[] = [
    ...(seconds ? [secondsField(seconds)] : []),
    ...(fNumber ? [rationalField(33437, Math.round(fNumber * 100), 100)] : []),
    ...(iso ? [shortField(34855, Math.min(65535, Math.round(iso)))] : []),
    ...(takenAt ? [textField(36867, takenAt.replace(/-/g, ':').replace('T', ' '))] : []),
    ...(focalLengthMm ? [rationalField(37386, Math.round(focalLengthMm * 100), 100)] : []),
  ];
  if (fields.length === 0 && camera === '') return null;
  const main = camera ? [textField(272, camera)] : [];
  return tiffBlockOf(
    { fields: main, children: [{ tag: EXIF_DIRECTORY, tree: { fields, children: [] } }] },
    true,
  );
}

function secondsField(seconds: number): TiffField {
  return seconds < 1
    ? rationalField(33434, 1000, Math.round(1000 / seconds))
    : rationalField(33434, Math.round(seconds * 1000), 1000);
}
