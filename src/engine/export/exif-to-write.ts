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
export function exifToWrite(picture: ExifOf, mostBytes = Number.POSITIVE_INFINITY): Uint8Array | null {
  return fittedExif(picture, mostBytes).block;
}

type ExifOf = Pick<CorrectedPicture, 'exif' | 'orientation'>;

/** The same, and what had to go: the maker's note, large values with it, or all but the orientation. */
export function fittedExif(
  { exif, orientation }: ExifOf,
  mostBytes: number,
): { readonly block: Uint8Array | null; readonly lost: 'nothing' | 'note' | 'large' | 'all' } {
  const tree = exif && exifTree(exif);
  if (!tree) return { block: orientation === 1 ? null : orientationAlone(orientation), lost: 'nothing' };
  const turned = atOrientation(tree, orientation);
  for (const [lost, write] of [
    ['nothing', () => exifBlockOf(turned)],
    ['note', () => exifBlockOf(turned, false)],
    ['large', () => exifBlockOf(small(turned), false)],
  ] as const) {
    const block = write();
    if (block.length <= mostBytes) return { block, lost };
  }
  return { block: orientationAlone(orientation), lost: 'all' };
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
