import { coverOf } from './cover.ts';
import { distanceMap } from './distance-map.ts';
import { fillIslands } from './fill-islands.ts';
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
  /** Cells that an outline's blur takes; 0 where it cannot be told. */
  readonly blur: Float32Array;
  /** By the outline: the background's light as it falls there, and the subject's own; elsewhere NaN. */
  readonly background: Planes;
  readonly subject: Planes;
  /** Standard deviation of a cell's light as a share of it. */
  readonly noise: number;
}

/** Grown background ends before the outline, farther where that is blurred; this far inward it is looked for. */
const BAND = 16;
/** Cells by which the background's light there is told from places clear of the outline's blur. */
const CLEAR = 2;
const BACKGROUND_REACH = 9;
const SUBJECT_REACH = 9;
/** Cover that is neither one thing nor the other, by which the blur of an outline is told over squares of this reach. */
const BARELY = 0.1;
const BLUR_REACH = 8;

export function findOutline(frame: LightPlanes, ratios: LightRatios, background: Uint8Array): Outline {
  const { columns, rows } = frame;
  const inward = distanceMap((at) => background[at] === 1, columns, rows);
  const outward = distanceMap((at) => background[at] === 0, columns, rows);
  const near = (at: number) => inward[at]! <= BAND && outward[at]! <= CLEAR + 1;
  const behind = backgroundLight(frame, ratios, outward);
  const own = subjectLight(frame, inward);
  const noise = cellNoise(ratios, outward);
  const lights = [new Float64Array(3), new Float64Array(3), new Float64Array(3)] as const;
  const cover = new Float32Array(columns * rows);
  const trust = new Float32Array(columns * rows);
  for (let at = 0; at < cover.length; at++) {
    cover[at] = background[at] ? 0 : 1;
    if (!near(at)) continue;
    for (const channel of [0, 1, 2] as const) {
      lights[0][channel] = frame.light[channel][at]!;
      lights[1][channel] = behind[channel][at]!;
      lights[2][channel] = own[channel][at]!;
    }
    const found = coverOf(...lights, noise);
    if (Number.isNaN(found.share)) continue;
    // kept unclamped, so that smoothing does not lean to either side
    cover[at] = found.share;
    trust[at] = found.trust;
  }
  const smooth = boxMean(cover, columns, rows, 2);
  for (let at = 0; at < cover.length; at++)
    if (trust[at]! > 0) cover[at] = trust[at]! * cover[at]! + (1 - trust[at]!) * smooth[at]!;
  const reached = reachedFrom(background, columns, (at) => near(at) && cover[at]! < 0.5);
  fillIslands(reached, ratios.level, columns); // what hung together by marks alone has fallen apart
  const steady = boxMean(reached, columns, rows, 1);
  const isInside = (at: number) => steady[at]! < 0.5;
  const toOutside = distanceMap((at) => !isInside(at), columns, rows);
  const toInside = distanceMap(isInside, columns, rows);
  const depth = toOutside.map((value, at) => (isInside(at) ? value - 0.5 : 0.5 - toInside[at]!));
  const blur = blurOf(cover, trust, depth, columns, rows);
  return { columns, rows, depth, blur, background: behind, subject: own, noise };
}

/** Background, and what hangs together with it by cells that are rather background: no bright spot on a subject. */
function reachedFrom(background: Uint8Array, columns: number, isRather: (at: number) => boolean): Uint8Array {
  const reached = background.slice();
  const stack: number[] = [];
  const visit = (at: number) => {
    if (at < 0 || at >= reached.length || reached[at] || !isRather(at)) return;
    reached[at] = 1;
    stack.push(at);
  };
  const around = (at: number) => {
    const column = at % columns;
    if (column > 0) visit(at - 1);
    if (column < columns - 1) visit(at + 1);
    visit(at - columns);
    visit(at + columns);
  };
  for (let at = 0; at < background.length; at++) if (background[at]) around(at);
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) around(at);
  return reached;
}

/** Cells from one light to the other: those that are neither, by how long the outline is among them. */
function blurOf(
  cover: Float32Array,
  trust: Float32Array,
  depth: Float32Array,
  columns: number,
  rows: number,
): Float32Array {
  const neither = new Float32Array(cover.length);
  const beside = new Float32Array(cover.length);
  for (let at = 0; at < cover.length; at++) {
    if (Math.abs(depth[at]!) > BAND) continue;
    if (cover[at]! > BARELY && cover[at]! < 1 - BARELY) neither[at] = trust[at]!;
    if (Math.abs(depth[at]!) <= 0.5) beside[at] = trust[at]!;
  }
  const some = boxMean(neither, columns, rows, BLUR_REACH);
  const line = boxMean(beside, columns, rows, BLUR_REACH);
  return some.map((value, at) => (line[at]! > 1e-4 ? (2 * value) / line[at]! : 0));
}

const FAINT = 1 / 2048;

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
