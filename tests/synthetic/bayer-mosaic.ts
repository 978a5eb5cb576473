import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { WHITE_XYZ, xyzOfSrgbLight } from './colour-truth.ts';
import { type DngOptions, dngBytes } from './dng-bytes.ts';
import { fieldRows } from './field-rows.ts';
import type { KnownField } from './known-field.ts';
import { cheapNormal, poissonElectrons } from './shot-noise.ts';

/** XYZ to the test camera's own red, green and blue. */
export const CAMERA_MATRIX = [0.62, -0.1, -0.08, -0.4, 1.18, 0.24, -0.05, 0.16, 0.6] as const;

export interface SensorOptions {
  /** Of the picture; margins come on top. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly order: 'RGGB' | 'BGGR' | 'GRBG' | 'GBRG';
  readonly bits: 12 | 14 | 16;
  /** Black of a repeating block from the picture's corner. */
  readonly black: { readonly rows: number; readonly columns: number; readonly levels: readonly number[] };
  readonly columnBlack?: readonly number[];
  readonly rowBlack?: readonly number[];
  readonly white: number;
  /** Where cells stop counting, if before white; they differ a little. */
  readonly fullAt?: number;
  readonly margins?: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
  /** Electrons at white, and those that reading adds. */
  readonly electronsAtWhite?: number;
  readonly readNoiseElectrons?: number;
  readonly seed: number;
}

const NO_MARGINS = { left: 0, top: 0, right: 0, bottom: 0 };

/** What the camera sees of D65 at Y = 1: its as-shot neutral where white balance is set to it. */
export const NEUTRAL = cameraOf(WHITE_XYZ);

function cameraOf([x, y, z]: readonly [number, number, number]): [number, number, number] {
  const m = CAMERA_MATRIX;
  return [m[0] * x + m[1] * y + m[2] * z, m[3] * x + m[4] * y + m[5] * z, m[6] * x + m[7] * y + m[8] * z];
}

/**
 * Photographs a known field with a Bayer sensor: each cell's own light at its own centre, in the camera's own colours
 * (D65 white of light 1 fills the most sensitive channel), shot and read noise, black, clipping.
 */
export function bayerMosaic(field: KnownField, options: SensorOptions): Uint16Array {
  const { widthPx, heightPx, order, bits, black, white, margins = NO_MARGINS, seed } = options;
  const { electronsAtWhite = 30_000, readNoiseElectrons = 5, columnBlack, rowBlack, fullAt } = options;
  const wide = widthPx + margins.left + margins.right;
  const high = heightPx + margins.top + margins.bottom;
  const cells = new Uint16Array(wide * high);
  const random = seededRandom(seed);
  const normal = cheapNormal(random);
  const top = 2 ** bits - 1;
  const most = Math.max(...NEUTRAL);
  const fill = fieldRows(field, widthPx, heightPx);
  const light = new Float64Array(widthPx * 3);
  const wrapped = (value: number, size: number) => ((value % size) + size) % size;
  for (let y = 0, at = 0; y < high; y++) {
    const row = y - margins.top;
    const isLit = row >= 0 && row < heightPx;
    if (isLit) fill(light, (row + 0.5) / heightPx);
    for (let x = 0; x < wide; x++, at++) {
      const column = x - margins.left;
      let share = 0;
      if (isLit && column >= 0 && column < widthPx) {
        const colour = cameraOf(
          xyzOfSrgbLight([light[column * 3]!, light[column * 3 + 1]!, light[column * 3 + 2]!]),
        );
        share = Math.max(0, colour['RGB'.indexOf(order[(row & 1) * 2 + (column & 1)]!)]! / most);
      }
      const counted =
        poissonElectrons(share * electronsAtWhite, normal, random) + readNoiseElectrons * normal();
      const level =
        black.levels[wrapped(row, black.rows) * black.columns + wrapped(column, black.columns)]! +
        (columnBlack?.[column] ?? 0) +
        (rowBlack?.[row] ?? 0);
      const code = Math.round(level + (counted / electronsAtWhite) * (white - level));
      const full = fullAt === undefined ? top : Math.round(fullAt + 4 * (random.uniform() - 0.5));
      cells[at] = Math.max(0, Math.min(top, full, code));
    }
  }
  return cells;
}

/** The same as a DNG that states all of it. */
export function dngOf(
  field: KnownField,
  options: SensorOptions,
  further: Partial<DngOptions> = {},
): Uint8Array {
  const { widthPx, heightPx, order, bits, black, white, margins, columnBlack, rowBlack } = options;
  const { left, top, right, bottom } = margins ?? NO_MARGINS;
  return dngBytes({
    cells: bayerMosaic(field, options),
    widthPx: widthPx + left + right,
    heightPx: heightPx + top + bottom,
    ...{ order, bits, black, white },
    ...(columnBlack && { columnBlack }),
    ...(rowBlack && { rowBlack }),
    ...(margins && { activeArea: { top, left, bottom: top + heightPx, right: left + widthPx } }),
    asShotNeutral: NEUTRAL.map((value) => value / Math.max(...NEUTRAL)) as [number, number, number],
    colorMatrix: CAMERA_MATRIX,
    ...further,
  });
}
