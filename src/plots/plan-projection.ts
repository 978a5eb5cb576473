import type { PlotPoint } from './plot-line.ts';

/** From above, across the frame runs to the right; from the side, down the frame runs down. */
export type PlanSide = 'above' | 'side';

/** Along the surface, and away from it (positive is away from the camera), in mm. */
export type SetPoint = readonly [along: number, away: number];

/** How a place on the set is drawn. */
export interface PlanProjection {
  readonly seenFrom: PlanSide;
  readonly unitsPerMm: number;
  /** Of what is drawn, with its clear space. */
  readonly width: number;
  readonly height: number;
  readonly place: (point: SetPoint) => PlotPoint;
}

/** Clear space round what is drawn: for arrows of unknown length and the lights' depth. */
const AIR = 44;

/** The share of a direction that must lie in a view to be drawn there: the sine of half an eighth turn. */
export const SEEN_SHARE = Math.sin(Math.PI / 8);

/** The part of a direction that a view shows: its cosine from above, its sine from the side; 0 where that is little. */
export function componentSeen(angleDeg: number | null, seenFrom: PlanSide): number {
  if (angleDeg === null) return 0;
  const angle = (angleDeg * Math.PI) / 180;
  const part = seenFrom === 'above' ? Math.cos(angle) : Math.sin(angle);
  return Math.abs(part) < SEEN_SHARE ? 0 : part;
}

/** How far a set reaches, in mm: along the surface from the middle of the frame, behind it and before it. */
export interface SetReach {
  /** To the left or up (negative), and to the right or down. */
  readonly from: number;
  readonly to: number;
  readonly behind: number;
  readonly before: number;
}

/** Fits a set into the given room, at one scale, in drawing units from the top left of what is drawn. */
export function planProjection(
  seenFrom: PlanSide,
  reach: SetReach,
  room: { width: number; height: number },
): PlanProjection {
  const across = reach.to - reach.from;
  const depth = reach.behind + reach.before;
  const [wide, high] = seenFrom === 'above' ? [across, depth] : [depth, across];
  const unitsPerMm = Math.min((room.width - 2 * AIR) / wide, (room.height - 2 * AIR) / high);
  const place = ([along, away]: SetPoint): PlotPoint =>
    seenFrom === 'above'
      ? [AIR + (along - reach.from) * unitsPerMm, AIR + (reach.behind - away) * unitsPerMm]
      : [AIR + (reach.before + away) * unitsPerMm, AIR + (along - reach.from) * unitsPerMm];
  return {
    seenFrom,
    unitsPerMm,
    width: 2 * AIR + wide * unitsPerMm,
    height: 2 * AIR + high * unitsPerMm,
    place,
  };
}

/** A place so many drawing units along and away from another. */
export function stepFrom(
  [x, y]: PlotPoint,
  { seenFrom }: PlanProjection,
  [alongWay, awayWay]: readonly [number, number],
  units: number,
): PlotPoint {
  return seenFrom === 'above'
    ? [x + alongWay * units, y - awayWay * units]
    : [x + awayWay * units, y + alongWay * units];
}
