import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import { type ExifTree, exifBlockOf, exifTree } from './exif-tree.ts';
import { shortField } from './tiff-field.ts';
import { tiffBlockOf } from './tiff-layout.ts';

const ORIENTATION = 274;
/** Above it a value is not what anybody types or a camera measures, but a table or a preview. */
const LARGE_VALUE_BYTES = 1024;

/**
 * A picture's Exif as a block to put into a JPEG or PNG: all that the source says, at the picture's orientation,
 * without the thumbnail, which shows the picture as it was. What does not fit into `mostBytes` goes in the order: the
 * maker's note, then large values. `null` where there is nothing to say.
 */
export function exifToWrite(
  picture: CorrectedPicture,
  mostBytes = Number.POSITIVE_INFINITY,
): Uint8Array | null {
  const tree = picture.exif && exifTree(picture.exif);
  if (!tree) return picture.orientation === 1 ? null : orientationAlone(picture.orientation);
  const turned = atOrientation(tree, picture.orientation);
  for (const write of [
    () => exifBlockOf(turned),
    () => exifBlockOf(turned, false),
    () => exifBlockOf(small(turned), false),
  ]) {
    const block = write();
    if (block.length <= mostBytes) return block;
  }
  return orientationAlone(picture.orientation);
}

function orientationAlone(orientation: number): Uint8Array {
  return tiffBlockOf({ fields: [shortField(ORIENTATION, orientation)], children: [] }, true);
}

function atOrientation(tree: ExifTree, orientation: number): ExifTree {
  const field = shortField(ORIENTATION, orientation);
  const stated = tree.littleEndian ? field : { ...field, bytes: field.bytes.toReversed() };
  return { ...tree, main: [...tree.main.filter(({ tag }) => tag !== ORIENTATION), stated] };
}

function small(tree: ExifTree): ExifTree {
  const isSmall = ({ bytes }: { bytes: Uint8Array }) => bytes.length <= LARGE_VALUE_BYTES;
  return {
    ...tree,
    main: tree.main.filter(isSmall),
    children: tree.children.map(({ tag, tree: child }) => ({
      tag,
      tree: { ...child, fields: child.fields.filter(isSmall) },
    })),
  };
}
