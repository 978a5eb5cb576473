import type { LinearFrame } from '../../frame/linear-frame.ts';
import { orientationTurnsSideways } from '../../grid/upright-rectangle.ts';

/** Linear light averaged over blocks of pixels, one plane a channel, row-major. */
export interface LightPlanes {
  readonly columns: number;
  readonly rows: number;
  readonly light: readonly [red: Float32Array, green: Float32Array, blue: Float32Array];
}

/** Averages a frame, as stored, down to so many columns and rows; a block counts pixels by how far it covers them. */
export function lightPlanes(frame: LinearFrame, columns: number, rows: number): LightPlanes {
  const { widthPx, heightPx, channels, samples, lightAtCode } = frame;
  const isGrey = channels < 3;
  const across = widthPx / columns;
  const down = heightPx / rows;
  const names = ['red', 'green', 'blue'] as const;
  const line = new Float64Array(widthPx);
  const light = names.map((name, channel) => {
    const plane = new Float32Array(columns * rows);
    if (isGrey && name !== 'green') return plane;
    const table = lightAtCode[name];
    const offset = isGrey ? 0 : channel;
    for (let row = 0; row < rows; row++) {
      line.fill(0);
      const [top, bottom] = [row * down, (row + 1) * down];
      for (let y = Math.floor(top); y < Math.min(Math.ceil(bottom - 1e-9), heightPx); y++) {
        const weight = Math.min(y + 1, bottom) - Math.max(y, top);
        for (let x = 0, at = y * widthPx * channels + offset; x < widthPx; x++, at += channels)
          line[x]! += weight * table[samples[at]!]!;
      }
      averageLine(line, across, down, plane.subarray(row * columns, (row + 1) * columns));
    }
    return plane;
  });
  if (isGrey) return { columns, rows, light: [light[1]!, light[1]!, light[1]!] };
  return { columns, rows, light: [light[0]!, light[1]!, light[2]!] };
}

/** Planes of a frame stored by one Exif orientation as they would lie stored by another. */
export function turnedPlanes(planes: LightPlanes, from: number, to: number): LightPlanes {
  if (from === to) return planes;
  const sideways = orientationTurnsSideways(from) !== orientationTurnsSideways(to);
  const columns = sideways ? planes.rows : planes.columns;
  const rows = sideways ? planes.columns : planes.rows;
  const source = new Int32Array(columns * rows);
  for (let row = 0, at = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, y] = seen((column + 0.5) / columns, (row + 0.5) / rows, to);
      const [storedX, storedY] = stored(x, y, from);
      source[at++] =
        Math.floor(storedY * planes.rows) * planes.columns + Math.floor(storedX * planes.columns);
    }
  }
  const [red, green, blue] = planes.light.map((plane) => Float32Array.from(source, (at) => plane[at]!));
  return { columns, rows, light: [red!, green!, blue!] };
}

/** Where a place of a stored frame, 0 to 1, is seen in the upright one. */
export function seen(x: number, y: number, orientation: number): [number, number] {
  const [across, down] = orientationTurnsSideways(orientation) ? [y, x] : [x, y];
  return [
    [2, 3, 6, 7].includes(orientation) ? 1 - across : across,
    [3, 4, 7, 8].includes(orientation) ? 1 - down : down,
  ];
}

/** The inverse of {@link seen}. */
export function stored(x: number, y: number, orientation: number): [number, number] {
  const across = [2, 3, 6, 7].includes(orientation) ? 1 - x : x;
  const down = [3, 4, 7, 8].includes(orientation) ? 1 - y : y;
  return orientationTurnsSideways(orientation) ? [down, across] : [across, down];
}

function averageLine(line: Float64Array, across: number, down: number, into: Float32Array): void {
  for (let column = 0; column < into.length; column++) {
    const [left, right] = [column * across, (column + 1) * across];
    let sum = 0;
    for (let x = Math.floor(left); x < Math.min(Math.ceil(right - 1e-9), line.length); x++)
      sum += (Math.min(x + 1, right) - Math.max(x, left)) * line[x]!;
    into[column] = sum / (across * down);
  }
}
