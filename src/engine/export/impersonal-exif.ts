import { exifBlockOf, exifTree } from './exif-tree.ts';

const EXIF_DIRECTORY = 34665;

/** Camera, orientation, resolution, time. */
const KEPT_OF_PICTURE = new Set([271, 272, 274, 282, 283, 296, 306, 531]);

/**
 * How the frame was exposed, when, with which lens, and how its colours are coded. Numbers of single cameras and lenses
 * (42032, 42033, 42037, 42016), comments, and the time zone, which is half a place, are none of it.
 * Source: Exif 2.32 (CIPA DC-008), tables 7 and 8; TIFF/EP (ISO 12234-2) for what stands in the first directory.
 */
const KEPT_OF_SHOT = new Set([
  ...[33434, 33437, 34850, 34855, 34864, 34865, 34866, 34867, 36864, 36867, 36868, 37121, 37122],
  ...[37377, 37378, 37379, 37380, 37381, 37382, 37383, 37384, 37385, 37386, 37396],
  ...[37520, 37521, 37522, 40960, 40961, 40962, 40963],
  ...[41486, 41487, 41488, 41495, 41728, 41729, 41730],
  ...[41985, 41986, 41987, 41988, 41989, 41990, 41991, 41992, 41993, 41994, 41996],
  ...[42034, 42035, 42036],
]);

/**
 * Of a file's Exif what tells how a frame was shot, and nothing that tells who shot it, where, or with which single
 * camera: whatever is not known to be harmless is left out, the maker's own note first. `null` where there is none.
 */
export function impersonalExif(exif: Uint8Array): Uint8Array | null {
  const tree = exifTree(exif);
  if (!tree) return null;
  const kept = {
    ...tree,
    main: tree.main.filter(({ tag }) => KEPT_OF_PICTURE.has(tag) || KEPT_OF_SHOT.has(tag)),
    children: tree.children
      .filter(({ tag }) => tag === EXIF_DIRECTORY)
      .map(({ tag, tree: { fields } }) => ({
        tag,
        // what lies further in names a way of coding, which the written file's own profile says, or is anyone's own
        tree: { fields: fields.filter((field) => KEPT_OF_SHOT.has(field.tag)), children: [] },
      })),
    makerNote: null,
  };
  return exifBlockOf(kept);
}
