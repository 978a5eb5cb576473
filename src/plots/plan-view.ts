import type { Move } from '../engine/moves/move.ts';
import type { FramePoint, Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import { hasSlope } from './has-slope.ts';
import { linePath } from './line-path.ts';
import { type PlanLengths, planLengths } from './plan-lengths.ts';
import { type PlanMove, planMoves } from './plan-moves.ts';
import {
  breakStrokes,
  brighterArrow,
  hottestTick,
  lampOutline,
  type PlanMark,
  somewhereLines,
} from './plan-outlines.ts';
import { componentSeen, type PlanSide, planProjection, type SetPoint } from './plan-projection.ts';
import type { PlotPoint } from './plot-line.ts';

/** What the plan is drawn from. */
export interface PlanInput {
  /** As it stands before the moves. */
  readonly setup: Setup;
  /** Height of the frame over its width. */
  readonly aspect: number;
  /** Where the light rises, degrees clockwise from the right; `null` where it has no direction. */
  readonly brighterDeg: number | null;
  readonly hottestAt: FramePoint;
  /** Whether that is but one place of several that clip. */
  readonly isHottestClipped: boolean;
  readonly moves: readonly Move[];
}

/** A slope that makes up less than this share of the falloff's variance is no side to speak of. Own allowance. */
const LEAST_EXPLAINED = 0.2;

/** What a reading knows of the set it was taken on. */
export function planInput({ frame, gradient, falloff, moves }: Reading, setup: Setup): PlanInput {
  return {
    setup,
    aspect: frame.heightPx / frame.widthPx,
    brighterDeg: hasSlope(gradient) && gradient.explains >= LEAST_EXPLAINED ? gradient.angleDeg : null,
    hottestAt: falloff.brightestAt,
    isHottestClipped: falloff.isLowerBound,
    moves,
  };
}

/** A set seen from above or from the side, in drawing units from the top left of what is drawn. */
export interface PlanView {
  readonly seenFrom: PlanSide;
  readonly lengths: PlanLengths;
  readonly width: number;
  readonly height: number;
  /** What the frame shows of the sheet, wall or panel, and the dashed rest whose size is not known. */
  readonly frame: PlanMark;
  readonly beyondFramePath: string;
  readonly hottest: PlanMark;
  /** Along the surface to its brighter side; `null` where the light rises in neither direction of this view. */
  readonly brighter: PlanMark | null;
  readonly lamps: readonly PlanMark[];
  /** From the surface to each light, and the line on which the light stands somewhere. */
  readonly distancePaths: readonly string[];
  readonly somewherePaths: readonly string[];
  readonly camera: PlotPoint;
  readonly sightPath: string;
  readonly moves: readonly PlanMove[];
  /** Two strokes across each line that is drawn shorter than it is. */
  readonly breaksPath: string;
}

/** Draws the set as far as it is known into the given room, at one scale for both directions. */
export function planView(
  input: PlanInput,
  seenFrom: PlanSide,
  room: { width: number; height: number },
): PlanView {
  const lengths = planLengths(input.setup, input.moves);
  const frameAlong = lengths.frameWidth.mm * (seenFrom === 'above' ? 1 : input.aspect);
  const brighter = componentSeen(input.brighterDeg, seenFrom);
  const lampPlaces = lampsOnSet(lengths, frameAlong, seenFrom, brighter);
  const half = lengths.lampWidth.mm / 2;
  const alongReach = Math.max(frameAlong * 0.65, ...lampPlaces.map(([along]) => Math.abs(along) + half));
  const farthest = Math.max(
    0,
    ...lengths.lampDistances.map(({ mm }, i) => Math.max(mm, lengths.lampTargetsMm[i] ?? 0)),
  );
  const behind = lengths.lampSide > 0 ? farthest : 0;
  const before = Math.max(lengths.cameraDistance.mm, lengths.lampSide < 0 ? farthest : 0);
  const projection = planProjection(seenFrom, { alongReach, behind, before }, room);
  const { place, unitsPerMm } = projection;
  const line = (...points: SetPoint[]) => linePath([points.map(place)]);

  const edges: readonly [SetPoint, SetPoint] = [
    [-frameAlong / 2, 0],
    [frameAlong / 2, 0],
  ];
  const hottestAlong = ((seenFrom === 'above' ? input.hottestAt.x : input.hottestAt.y) - 0.5) * frameAlong;
  const camera: SetPoint = [0, -lengths.cameraDistance.mm];
  const brighterEnd: SetPoint = [(Math.sign(brighter) * frameAlong) / 2, 0];
  return {
    seenFrom,
    lengths,
    width: projection.width,
    height: projection.height,
    frame: { path: line(...edges), at: place(edges[1]) },
    beyondFramePath: line([-alongReach, 0], edges[0]) + line(edges[1], [alongReach, 0]),
    hottest: hottestTick(place([hottestAlong, 0]), seenFrom, lengths.lampSide),
    brighter: brighter === 0 ? null : brighterArrow(place([0, 0]), place(brighterEnd), seenFrom),
    lamps: lampPlaces.map(([along, away]) => {
      const corner = place([along - half, away]);
      return {
        path: lampOutline(corner, lengths.lampWidth.mm * unitsPerMm, seenFrom),
        at: place([along + half, away]),
      };
    }),
    distancePaths: lampPlaces.map(([along, away]) => line([along, 0], [along, away])),
    somewherePaths: lampPlaces.map(([along, away]) =>
      somewhereLines([along, away], half, alongReach)
        .map(([from, to]) => line(from, to))
        .join(''),
    ),
    camera: place(camera),
    sightPath: line(edges[0], camera, edges[1]),
    moves: planMoves(input.moves, lampPlaces, lengths, frameAlong, projection),
    breaksPath: breakStrokes(lengths, lampPlaces, frameAlong, projection),
  };
}

/** Whether anything stands or is to go up or down, so that the view from the side has something to tell. */
export function hasHeights({ brighterDeg, moves }: Pick<PlanInput, 'brighterDeg' | 'moves'>): boolean {
  if (componentSeen(brighterDeg, 'side') !== 0) return true;
  return moves.some((move) => {
    if (move.kind === 'slide-lamp')
      return (move.downMm ?? move.downFrameWidths ?? componentSeen(move.toward, 'side')) !== 0;
    return move.kind === 'block-stray' && componentSeen(move.fromDeg, 'side') !== 0;
  });
}

/** Where each light is drawn: its distance as entered; across, the frame's centre or beyond its edge, out of shot. */
function lampsOnSet(
  { lampDistances, lampWidth, lampSide }: PlanLengths,
  frameAlong: number,
  seenFrom: PlanSide,
  brighter: number,
): SetPoint[] {
  const outOfShot = frameAlong / 2 + lampWidth.mm * 0.75;
  return lampDistances.map(({ mm }, lamp) => {
    const away = lampSide * mm;
    if (seenFrom === 'side' || lampSide > 0) return [0, away];
    const side = lampDistances.length > 1 ? (lamp === 0 ? -1 : 1) : brighter < 0 ? -1 : 1;
    return [side * outOfShot, away];
  });
}
