import { distanceMap } from './distance-map.ts';
import type { LightPlanes } from './light-planes.ts';
import type { LightRatios } from './light-ratios.ts';
import { boxMean } from './plane-sums.ts';
import { weightedMeans } from './weighted-mean.ts';

type Planes = LightPlanes['light'];

/** Where a subject's outline runs, and which two lights mix there. */
export interface Outline {
  readonly columns: number;
  readonly rows: number;
  /** Distance to the outline in cells, above 0 inside the subject; infinite where there is none. */
  readonly depth: Float32Array;
  /** By the outline: the background's light as it falls there, and the subject's own; elsewhere NaN. */
  readonly background: Planes;
  readonly subject: Planes;
  /** Standard deviation of a cell's light as a share of it. */
  readonly noise: number;
}

/** Grown background ends some cells before the outline; this far inward it is looked for, and light counts as own. */
const BAND = 7;
/** Cells by which the background's light there is told from places clear of the outline's blur. */
const CLEAR = 2;
const BACKGROUND_REACH = 9;
const SUBJECT_REACH = 5;
/** Signal over noise at which a single cell is believed as much as a smoothed one. */
const PLAIN = 6;

export function findOutline(frame: LightPlanes, ratios: LightRatios, background: Uint8Array): Outline {
  const { columns, rows } = frame;
  const inward = distanceMap((at) => background[at] === 1, columns, rows);
  const outward = distanceMap((at) => background[at] === 0, columns, rows);
  const near = (at: number) => inward[at]! <= BAND && outward[at]! <= CLEAR + 1;
  const behind = backgroundLight(frame, ratios, outward);
  const own = subjectLight(frame, inward);
  const noise = cellNoise(ratios, outward);
  const cover = new Float32Array(columns * rows);
  const trust = new Float32Array(columns * rows);
  for (let at = 0; at < cover.length; at++) {
    cover[at] = background[at] ? 0 : 1;
    if (!near(at)) continue;
    const { share, contrast } = coverAt(frame.light, behind, own, at);
    if (Number.isNaN(share)) continue;
    // kept unclamped, so that smoothing does not lean to either side
    cover[at] = share;
    trust[at] = contrast ** 2 / (contrast ** 2 + (PLAIN * noise) ** 2);
  }
  const smooth = boxMean(cover, columns, rows, 2);
  const inside = new Uint8Array(columns * rows);
  for (let at = 0; at < cover.length; at++) {
    if (!near(at)) inside[at] = background[at] ? 0 : 1;
    else inside[at] = trust[at]! * cover[at]! + (1 - trust[at]!) * smooth[at]! > 0.5 ? 1 : 0;
  }
  const steady = boxMean(inside, columns, rows, 1);
  const isInside = (at: number) => steady[at]! > 0.5;
  const toOutside = distanceMap((at) => !isInside(at), columns, rows);
  const toInside = distanceMap(isInside, columns, rows);
  const depth = toOutside.map((value, at) => (isInside(at) ? value - 0.5 : 0.5 - toInside[at]!));
  return { columns, rows, depth, background: behind, subject: own, noise };
}

/** How much of a cell a subject covers, by where its light lies between the two; and how far apart these are. */
export function coverAt(light: Planes, background: Planes, subject: Planes, at: number) {
  let along = 0;
  let whole = 0;
  for (const channel of [0, 1, 2] as const) {
    const behind = background[channel][at]!;
    const scale = 1 / (behind + FAINT);
    const apart = (behind - subject[channel][at]!) * scale;
    along += (behind - light[channel][at]!) * scale * apart;
    whole += apart * apart;
  }
  return { share: whole > 0 ? along / whole : Number.NaN, contrast: Math.sqrt(whole / 3) };
}

export const FAINT = 1 / 2048;

/** The blank's light, darkened as nearby background is. */
function backgroundLight(frame: LightPlanes, ratios: LightRatios, outward: Float32Array): Planes {
  const { columns, rows } = frame;
  const weight = outward.map((value) => (value > CLEAR ? 1 : 0));
  const shade = frame.light.map((plane, channel) =>
    plane.map((value, at) => Math.min(4, (value + FAINT) / (ratios.foretold[channel]![at]! + FAINT))),
  );
  const means = weightedMeans(shade, weight, columns, rows, BACKGROUND_REACH);
  const [red, green, blue] = means.map((mean, channel) =>
    mean.map((value, at) => value * ratios.foretold[channel]![at]!),
  );
  return [red!, green!, blue!];
}

/** Of nearby light, what lies deepest inside counts most by far. */
function subjectLight(frame: LightPlanes, inward: Float32Array): Planes {
  const { columns, rows } = frame;
  const weight = inward.map((value) => (value > 0 ? (Math.min(value, BAND - 1) / (BAND - 1)) ** 6 : 0));
  const [red, green, blue] = weightedMeans(frame.light, weight, columns, rows, SUBJECT_REACH);
  return [red!, green!, blue!];
}

/** Scatter of single cells in open background, as a share of their light. */
function cellNoise({ columns, level }: LightRatios, outward: Float32Array): number {
  let squares = 0;
  let count = 0;
  for (let at = 1; at < level.length; at++) {
    if (at % columns === 0 || !(outward[at]! > CLEAR) || Math.abs(level[at]!) > 0.1) continue;
    squares += (level[at]! - level[at - 1]!) ** 2;
    count++;
  }
  return count > 0 ? Math.LN2 * Math.sqrt(squares / count / 2) : 0;
}
