import type { Vector3 } from '../../numeric/matrix3.ts';
import type { LightPlanes } from './light-planes.ts';
import { boxMean } from './plane-sums.ts';

/** How a frame's light stands against what the blank foretells: all in stops, 0 where nothing is in the way. */
export interface LightRatios {
  readonly columns: number;
  readonly rows: number;
  /** Mean over the channels; below 0 in shadow. */
  readonly level: Float32Array;
  /** Red against green and blue against green. */
  readonly redGreen: Float32Array;
  readonly blueGreen: Float32Array;
  /** The blank's light brought to the frame's exposure, its noise smoothed. */
  readonly foretold: LightPlanes['light'];
}

/** Added to both lights, so that black against black is no ratio. */
const FLOOR = 1 / 2048;
/** The blank is smoothed over 3 × 3 cells: its noise would count as the frame's. */
const SMOOTHED = 1;

export function lightRatios(frame: LightPlanes, blank: LightPlanes, exposureEv: Vector3): LightRatios {
  const { columns, rows } = frame;
  const foretell = (channel: 0 | 1 | 2) => {
    const factor = 2 ** exposureEv[channel];
    const smooth = boxMean(blank.light[channel], columns, rows, SMOOTHED);
    for (let at = 0; at < smooth.length; at++) smooth[at] = Math.min(1, smooth[at]! * factor);
    return smooth;
  };
  const foretold = [foretell(0), foretell(1), foretell(2)] as const;
  const level = new Float32Array(columns * rows);
  const redGreen = new Float32Array(columns * rows);
  const blueGreen = new Float32Array(columns * rows);
  const stops = (channel: 0 | 1 | 2, at: number) =>
    Math.log2((Math.max(0, frame.light[channel][at]!) + FLOOR) / (foretold[channel][at]! + FLOOR));
  for (let at = 0; at < level.length; at++) {
    const [red, green, blue] = [stops(0, at), stops(1, at), stops(2, at)];
    level[at] = (red + green + blue) / 3;
    redGreen[at] = red - green;
    blueGreen[at] = blue - green;
  }
  return { columns, rows, level, redGreen, blueGreen, foretold };
}
