import type { FoundLight } from '../engine/lamps/set-reading.ts';
import { clipSegment } from './clip-segment.ts';
import { linePath } from './line-path.ts';
import { isDistanceFound, type PlanLengths } from './plan-lengths.ts';
import type { LightPlace } from './plan-light-places.ts';
import type { PlanMark } from './plan-outlines.ts';
import type { PlanProjection, SetPoint } from './plan-projection.ts';
import { type PlanSpread, planSpread } from './plan-spread.ts';
import type { PlotPoint } from './plot-line.ts';

/** A light on the plan: a plain outline to scale. */
export interface PlanLight extends PlanMark {
  /** Whether it stands where the frame has it; otherwise part of its place is a stand-in. */
  readonly isFound: boolean;
  /** From the surface to the light: along its axis where that is found. */
  readonly axisPath: string;
  /** Where it may well stand, both ways. */
  readonly spread: PlanSpread | null;
  /** The line on which it stands somewhere, where only one way is known. */
  readonly somewherePath: string;
}

/** A light's depth is not known and drawn thin, in drawing units. */
const DEPTH = 8;

/** Least part of its distance at which a light of unknown distance is thought to stand. */
const NEAREST_PART = 0.15;

/** Draws a light, and the ± of where it stands. */
export function planLight(
  { at, aim, found }: LightPlace,
  lengths: PlanLengths,
  reach: { from: number; to: number },
  projection: PlanProjection,
): PlanLight {
  const { place, unitsPerMm, width, height } = projection;
  const half = lengths.lampWidth.mm / 2;
  const [centre, spot] = [place(at), place(aim)];
  const outline = outlineOf(centre, spot, half * unitsPerMm, projection);
  const axis = clipSegment(spot, centre, width, height);
  const isFound = found !== null && isDistanceFound(found);
  const line = (from: SetPoint, to: SetPoint) => linePath([[place(from), place(to)]]);
  return {
    ...outline,
    isFound,
    axisPath: axis === null ? '' : linePath([axis]),
    spread: isFound ? planSpread(found, centre, lengths.lampSide, projection, lengths.frameWidth.mm) : null,
    somewherePath: isFound
      ? ''
      : found === null
        ? somewhereAlong(at, half, reach, line)
        : somewhereAway(found, at, lengths, projection),
  };
}

/** A thin rectangle across the light's axis, and its end to the right or at the bottom. */
function outlineOf(
  [x, y]: PlotPoint,
  [spotX, spotY]: PlotPoint,
  half: number,
  { seenFrom }: PlanProjection,
): PlanMark {
  const length = Math.hypot(spotX - x, spotY - y);
  const straight: PlotPoint = seenFrom === 'above' ? [0, 1] : [1, 0];
  const [axisX, axisY] = length === 0 ? straight : [(spotX - x) / length, (spotY - y) / length];
  const turned: PlotPoint = [-axisY, axisX];
  const isTurnedBack = (seenFrom === 'above' ? turned[0] : turned[1]) < 0;
  const [faceX, faceY] = isTurnedBack ? [axisY, -axisX] : turned;
  const corner = (along: number, ahead: number): PlotPoint => [
    x + along * half * faceX + (ahead * DEPTH * axisX) / 2,
    y + along * half * faceY + (ahead * DEPTH * axisY) / 2,
  ];
  return {
    path: `${linePath([[corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]])}Z`,
    at: [x + half * faceX, y + half * faceY],
  };
}

/** The line at a light's distance, to both sides of where it is drawn: its place along the surface is not known. */
function somewhereAlong(
  [along, away]: SetPoint,
  half: number,
  { from, to }: { from: number; to: number },
  line: (from: SetPoint, to: SetPoint) => string,
): string {
  const [least, most] = [Math.min(from, along - half), Math.max(to, along + half)];
  const left = along - half > least ? line([least, away], [along - half, away]) : '';
  return left + (most > along + half ? line([along + half, away], [most, away]) : '');
}

/** The line away from the surface on which a light of unknown distance stands, as far as it is drawn. */
function somewhereAway(
  { right, distance, rightWithDistance }: FoundLight,
  [along, away]: SetPoint,
  { lampSide, frameWidth }: PlanLengths,
  { seenFrom, place, width, height }: PlanProjection,
): string {
  const slope =
    seenFrom === 'above' && distance.plusMinus > 0
      ? (rightWithDistance * right.plusMinus) / distance.plusMinus
      : 0;
  const drawn = Math.abs(away) / frameWidth.mm;
  const pointAt = (widths: number): PlotPoint =>
    place([along + slope * (widths - drawn) * frameWidth.mm, lampSide * widths * frameWidth.mm]);
  const nearest = Math.max(NEAREST_PART * drawn, drawn - distance.plusMinus);
  const inside = clipSegment(pointAt(nearest), pointAt(drawn + distance.plusMinus), width, height);
  return inside === null ? '' : linePath([inside]);
}
