import { type Matrix3, multiplyMatrix3, type Vector3 } from '../numeric/matrix3.ts';
import { openTiffDirectory, type TiffDirectory } from './tiff-directory.ts';

/** What a DNG says of its cells' levels and colours. Source of all tags: Digital Negative specification 1.6, chapter 4. */
export interface DngTags {
  /** Of the part that makes the picture, in cells of the whole mosaic; `null` where all does. */
  readonly activeArea: DngArea | null;
  /** Black of a repeating block of cells from the active area's corner, row by row. */
  readonly black: { readonly rows: number; readonly columns: number; readonly levels: readonly number[] };
  /** Further black of each column and row of the active area; `null` where none. */
  readonly columnBlack: Float64Array | null;
  readonly rowBlack: Float64Array | null;
  /** `null` where it is not stated. */
  readonly white: number | null;
  /** Camera's own red, green and blue of what was to be neutral, or its chromaticity; `null` where not stated. */
  readonly asShotNeutral: Vector3 | null;
  readonly asShotWhiteXy: readonly [number, number] | null;
  readonly calibrations: readonly DngCalibration[];
}

/** Rows and columns from the mosaic's corner; bottom and right are the first ones outside. */
export interface DngArea {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface DngCalibration {
  /** As Exif's LightSource numbers it; 0 where not stated. */
  readonly illuminant: number;
  /** XYZ to the camera's own colours, analogue balance and this camera's calibration included. */
  readonly xyzToCamera: Matrix3;
  /** From the camera's balanced colours to XYZ under D50; `null` where not stated. */
  readonly forward: Matrix3 | null;
  /** What the balance has to undo first: analogue balance × calibration. */
  readonly balance: Matrix3;
}

const TAG = {
  newSubfileType: 254,
  imageWidth: 256,
  imageLength: 257,
  photometric: 262,
  directories: 330,
  dngVersion: 50706,
  blackRepeat: 50713,
  black: 50714,
  columnBlack: 50715,
  rowBlack: 50716,
  white: 50717,
  asShotNeutral: 50728,
  asShotWhiteXy: 50729,
  analogBalance: 50727,
  activeArea: 50829,
} as const;
/** Colour matrix, calibration, forward matrix and illuminant, of the first and the second calibration. */
const CALIBRATIONS = [
  { matrix: 50721, calibration: 50723, forward: 50964, illuminant: 50778 },
  { matrix: 50722, calibration: 50724, forward: 50965, illuminant: 50779 },
];
const RAW_PHOTOMETRICS = [32803, 34892];
const MOST_DIRECTORIES = 16;
const LARGEST_REPEAT = 64;
const LONGEST_SIDE = 65536;

/** Reads a DNG's tags; `null` for any other file. Damaged ones count as absent. */
export function readDngTags(bytes: Uint8Array): DngTags | null {
  const main = openTiffDirectory(bytes, null);
  if (!main || main.values(TAG.dngVersion, 4) === null) return null;
  const cells = cellDirectory(bytes, main);
  const balance = main.values(TAG.analogBalance, 4);
  return {
    activeArea: areaOf(cells),
    black: blackOf(cells),
    columnBlack: cells.values(TAG.columnBlack, LONGEST_SIDE),
    rowBlack: cells.values(TAG.rowBlack, LONGEST_SIDE),
    white: cells.number(TAG.white),
    asShotNeutral: asShotNeutralOf(main),
    asShotWhiteXy: asShotWhiteOf(main),
    calibrations: CALIBRATIONS.flatMap((tags) => calibrationOf(main, tags, balance)),
  };
}

/** The largest full picture of cells; the first directory may be a small picture for looking at. */
function cellDirectory(bytes: Uint8Array, main: TiffDirectory): TiffDirectory {
  const inner = [...(main.numbers(TAG.directories, MOST_DIRECTORIES) ?? [])];
  const all = [main, ...inner.map((offset) => openTiffDirectory(bytes, offset))].filter((d) => d !== null);
  const area = (directory: TiffDirectory) =>
    (directory.number(TAG.imageWidth) ?? 0) * (directory.number(TAG.imageLength) ?? 0);
  return all
    .filter((d) => RAW_PHOTOMETRICS.includes(d.number(TAG.photometric) ?? 0))
    .filter((d) => ((d.number(TAG.newSubfileType) ?? 0) & 1) === 0)
    .reduce((best, directory) => (area(directory) > area(best) ? directory : best), main);
}

function areaOf(cells: TiffDirectory): DngArea | null {
  const area = cells.values(TAG.activeArea, 4);
  if (area?.length !== 4) return null;
  const [top, left, bottom, right] = area as unknown as [number, number, number, number];
  return top < bottom && left < right ? { top, left, bottom, right } : null;
}

function blackOf(cells: TiffDirectory): DngTags['black'] {
  const [rows = 1, columns = 1] = cells.values(TAG.blackRepeat, 2) ?? [];
  const levels = cells.values(TAG.black, LARGEST_REPEAT ** 2);
  const whole = rows >= 1 && columns >= 1 && rows <= LARGEST_REPEAT && columns <= LARGEST_REPEAT;
  if (whole && levels && levels.length >= rows * columns)
    return { rows, columns, levels: [...levels.subarray(0, rows * columns)] };
  return { rows: 1, columns: 1, levels: [levels?.[0] ?? 0] };
}

function asShotNeutralOf(main: TiffDirectory): Vector3 | null {
  const [red, green, blue] = main.values(TAG.asShotNeutral, 4) ?? [];
  return red && green && blue && red > 0 && green > 0 && blue > 0 ? [red, green, blue] : null;
}

function asShotWhiteOf(main: TiffDirectory): readonly [number, number] | null {
  const [x, y] = main.values(TAG.asShotWhiteXy, 2) ?? [];
  return x && y && x > 0 && y > 0 && x + y < 1 ? [x, y] : null;
}

function calibrationOf(
  main: TiffDirectory,
  tags: (typeof CALIBRATIONS)[number],
  analog: Float64Array | null,
): DngCalibration[] {
  const matrix = main.values(tags.matrix, 9);
  if (matrix?.length !== 9) return [];
  const calibration = main.values(tags.calibration, 9);
  const own = calibration?.length === 9 ? calibration : Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const balance = [...own].map(
    (value, i) => value * (analog?.[Math.floor(i / 3)] ?? 1),
  ) as unknown as Matrix3;
  const forward = main.values(tags.forward, 9);
  return [
    {
      illuminant: main.number(tags.illuminant) ?? 0,
      xyzToCamera: multiplyMatrix3(balance, [...matrix] as unknown as Matrix3),
      forward: forward?.length === 9 ? ([...forward] as unknown as Matrix3) : null,
      balance,
    },
  ];
}
