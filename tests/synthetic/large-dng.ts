import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { CAMERA_MATRIX, NEUTRAL } from './bayer-mosaic.ts';
import { dngBytes } from './dng-bytes.ts';

const BLACK = 512;
const WHITE = 15_000;

/**
 * A DNG of a wall lit from the left, as many megapixels as a camera's, rendered in a second: light that falls along the
 * rows only, with noise taken over and over from one list.
 */
export function largeDng(widthPx: number, heightPx: number, orientation = 1, seed = 5): Uint8Array {
  const random = seededRandom(seed);
  const noise = Float32Array.from({ length: 65_521 }, () => 30 * (random.uniform() + random.uniform() - 1));
  const cells = new Uint16Array(widthPx * heightPx);
  const neutral = NEUTRAL.map((value) => value / Math.max(...NEUTRAL));
  const rows = ['RG', 'GB'].map((colours) =>
    Float32Array.from({ length: widthPx }, (_, column) => {
      const light = 0.7 * 2 ** (-1.2 * (column / widthPx) ** 2);
      return BLACK + light * neutral['RGB'.indexOf(colours[column & 1]!)]! * (WHITE - BLACK);
    }),
  );
  for (let row = 0, at = 0; row < heightPx; row++) {
    const levels = rows[row & 1]!;
    for (let column = 0; column < widthPx; column++, at++)
      cells[at] = levels[column]! + noise[at % noise.length]! + 0.5;
  }
  return dngBytes({
    ...{ cells, widthPx, heightPx, orientation, order: 'RGGB', bits: 16, white: WHITE },
    black: { rows: 1, columns: 1, levels: [BLACK] },
    asShotNeutral: neutral as [number, number, number],
    colorMatrix: CAMERA_MATRIX,
    ...{ exposureTime: 0.008, fNumber: 8, iso: 100, takenAt: '2026:03:01 10:20:30' },
  });
}
