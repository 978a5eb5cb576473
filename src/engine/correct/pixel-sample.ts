import type { LinearFrame } from '../frame/linear-frame.ts';
import { stored } from './matte/light-planes.ts';

/** Pixels of a sample over all: a count of a tenth of a frame then comes to within a percent. */
const PLACES_WANTED = 1_000_000;

/**
 * Some of a frame's own pixels, drawn evenly from all over it, as upright frames of so many columns and rows: they have
 * the noise that averaging takes out. A pixel of each comes from anywhere within its place; where the frame is no
 * larger than that, it is the whole frame.
 */
export function pixelSample(
  frame: LinearFrame,
  columns: number,
  rows: number,
  isGrey: boolean,
): LinearFrame[] {
  const pixelsAPlace = (frame.widthPx * frame.heightPx) / (columns * rows);
  const draws = Math.min(Math.ceil(PLACES_WANTED / (columns * rows)), Math.floor(pixelsAPlace));
  const random = randomSource();
  return Array.from({ length: Math.max(draws, 1) }, () => ({
    ...frame,
    widthPx: columns,
    heightPx: rows,
    channels: isGrey ? (1 as const) : (3 as const),
    ...drawn(frame, columns, rows, isGrey ? 1 : 3, pixelsAPlace > 1 ? random : () => 0.5),
    orientation: 1,
    jpegDcSteps: null,
  }));
}

function drawn(
  { widthPx, heightPx, channels, samples, bitsPerSample, orientation, fileCodes }: LinearFrame,
  columns: number,
  rows: number,
  kept: 1 | 3,
  random: () => number,
): Pick<LinearFrame, 'samples' | 'fileCodes'> {
  const length = columns * rows * kept;
  const into = bitsPerSample === 8 ? new Uint8Array(length) : new Uint16Array(length);
  const extremes = new Uint8Array(fileCodes ? columns * rows : 0);
  for (let row = 0, to = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, y] = stored((column + random()) / columns, (row + random()) / rows, orientation);
      const pixelX = Math.min(Math.floor(x * widthPx), widthPx - 1); // 1 − 0 lies beyond the last
      const pixelY = Math.min(Math.floor(y * heightPx), heightPx - 1);
      const pixel = pixelY * widthPx + pixelX;
      const at = pixel * channels;
      if (fileCodes) extremes[row * columns + column] = fileCodes.extremes[pixel]!;
      for (let channel = 0; channel < kept; channel++) into[to++] = samples[at + channel]!;
    }
  }
  return { samples: into, ...(fileCodes && { fileCodes: { ...fileCodes, extremes } }) };
}

/**
 * The same numbers every time, so that a frame always counts alike.
 * Source: G. Marsaglia, "Xorshift RNGs", J. Stat. Software 8(14), 2003 (the 32-bit generator 13, 17, 5).
 */
function randomSource(): () => number {
  let x = 0x2f6e2b1;
  return () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 2 ** 32;
  };
}
