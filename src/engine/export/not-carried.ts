import { heldChannels } from '../intake/held-channels.ts';
import type { StoredImage } from '../intake/stored-image.ts';
import { fittedExif } from './exif-to-write.ts';
import { exifTree } from './exif-tree.ts';
import { MOST_EXIF_BYTES, MOST_XMP_BYTES } from './write-jpeg.ts';
import type { WrittenFormat } from './write-picture.ts';
import { xmpToWrite } from './xmp-to-write.ts';

type Notes = Pick<
  StoredImage,
  'format' | 'channels' | 'isGreyJpeg' | 'isOpaque' | 'orientation' | 'exif' | 'xmp' | 'hasIptc'
>;

/** What of a source a file of that format will not hold, in sentences; thumbnails are left out without a word. */
export function notCarried(stored: Notes, written: WrittenFormat): string[] {
  const { xmp = null, hasIptc } = stored;
  const hasAlpha = heldChannels(stored) % 2 === 0;
  const says = [
    hasAlpha && written === 'jpeg'
      ? 'A JPEG holds no transparency: what was transparent is written as if it were not.'
      : null,
    exifLost(stored, written),
    written === 'jpeg' && xmp?.length && !xmpToWrite({ xmp }, MOST_XMP_BYTES)
      ? `Its XMP (captions, ratings, rights) is larger than the 64 KB that a JPEG takes and is not carried on. ${INSTEAD}`
      : null,
    hasIptc
      ? 'Its IPTC notes (caption, keywords, credit) are not carried on; what its Exif and XMP say of them is.'
      : null,
  ];
  return says.filter((sentence) => sentence !== null);
}

const INSTEAD = 'Write a PNG where it matters.';

function exifLost({ exif = null, orientation }: Notes, written: WrittenFormat): string | null {
  if (!exif) return null;
  const tree = exifTree(exif);
  if (!tree) return 'Its Exif is damaged and is not carried on, but for the orientation.';
  const hasNote = tree.makerNote !== null;
  if (written === 'tiff' && hasNote && !tree.littleEndian)
    return `The maker’s own note in its Exif is not carried on: it counts its numbers from the high byte on, and the TIFF from the low one. ${INSTEAD}`;
  if (written !== 'jpeg') return null;
  const { lost } = fittedExif({ exif, orientation }, MOST_EXIF_BYTES);
  if (lost === 'nothing') return null;
  const large = hasNote
    ? 'the maker’s own note and values of more than 1 KB are'
    : 'values of more than 1 KB are';
  const what = { note: 'the maker’s own note is', large, all: 'all but the orientation is' }[lost];
  return `Its Exif is larger than the 64 KB that a JPEG takes: ${what} not carried on. ${INSTEAD}`;
}
