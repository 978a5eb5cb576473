import { openTiffDirectory } from './tiff-directory.ts';

/** Source of the tag numbers: Exif (CIPA DC-008), tables 4 and 8. */
const EXIF_DIRECTORY = 34665;
const WHITE_BALANCE = 41987;

/** Whether an Exif block says that the camera chose the white balance; `null` where it does not say. */
export function isWhiteBalanceAutomatic(exif: Uint8Array | null | undefined): boolean | null {
  const exifAt = exif ? (openTiffDirectory(exif, null)?.number(EXIF_DIRECTORY) ?? null) : null;
  const mode = exif && exifAt !== null ? openTiffDirectory(exif, exifAt)?.number(WHITE_BALANCE) : null;
  return mode === 0 ? true : mode === 1 ? false : null;
}
