import { rgbToXyzMatrix } from './colour/rgb-to-xyz-matrix.ts';
import { SRGB } from './colour/srgb-space.ts';
import { cellLayout } from './grid/cell-layout.ts';
import { readJpegSegments } from './intake/jpeg-segments.ts';
import { checkPictureSize } from './intake/picture-size.ts';
import type { Platform } from './intake/platform.ts';
import { NO_EXIF, readExif } from './intake/read-exif.ts';
import { sniffFormat } from './intake/sniff-format.ts';
import { liveCells } from './live/live-cells.ts';
import { colourOfCells, emptyColourMap, smoothChannels } from './maps/colour-of-cells.ts';
import { cellSmoother } from './maps/smooth-cells.ts';
import type { FrameSource } from './measure-frame.ts';
import { WHOLE_FRAME } from './reading.ts';
import { uprightPicture } from './sorting/upright-picture.ts';

/** How a frame's light falls off by a decode in small, to be looked at until it is measured. Structured-cloneable. */
export interface FirstLook {
  readonly columns: number;
  readonly rows: number;
  /** log2 of smoothed cells over the whole upright frame, brightest = 0; `null` where there is no light. */
  readonly evMap: readonly (number | null)[];
  readonly spreadEv: number;
}

/** As many pixels as give every cell of a frame its own eight. */
const LONGEST_PX = 768;
const TO_XYZ = rgbToXyzMatrix(SRGB.primaries, SRGB.white);

/**
 * Looks at a JPEG before it is decoded whole. Means of blocks were averaged in coded values and rounded again, specks
 * count, and nothing is set aside: against the reading cells are 0.02 stop off at most where the frame is smooth.
 * `null` where the file is none, the platform does not decode in small, or anything is wrong: the reading says what.
 */
export async function firstLook({ bytes }: FrameSource, platform: Platform): Promise<FirstLook | null> {
  if (!platform.decodeJpegInSmall || sniffFormat(bytes) !== 'jpeg') return null;
  try {
    const segments = readJpegSegments(bytes);
    checkPictureSize(segments.widthPx, segments.heightPx);
    if (segments.components > 3) return null;
    const decoded = await platform.decodeJpegInSmall(bytes, segments, LONGEST_PX);
    if (decoded === null) return null;
    const { orientation } = segments.exif ? readExif(segments.exif) : NO_EXIF;
    const picture = uprightPicture(decoded, orientation);
    const layout = cellLayout(picture.widthPx, picture.heightPx, WHOLE_FRAME);
    const { columns, rows } = layout;
    const { light } = liveCells(picture, layout);
    const empty = () => new Float64Array(columns * rows);
    const smoothed = { red: empty(), green: empty(), blue: empty() };
    smoothChannels(cellSmoother(columns, rows, light.green), light, smoothed);
    const seen = emptyColourMap(columns * rows);
    colourOfCells(smoothed, TO_XYZ, seen);
    const lit = seen.luminance.filter((y) => y > 0);
    if (lit.length === 0) return null;
    const brightest = Math.max(...lit);
    const evMap = Array.from(seen.luminance, (y) => (y > 0 ? Math.log2(y / brightest) : null));
    return { columns, rows, evMap, spreadEv: Math.log2(brightest / Math.min(...lit)) };
  } catch {
    return null;
  }
}
