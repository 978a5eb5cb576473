import { linePath } from './line-path.ts';
import type { PlanInput } from './plan-input.ts';
import { type PlanLengths, planLengths } from './plan-lengths.ts';
import { lightPlaces } from './plan-light-places.ts';
import { type PlanLight, planLight } from './plan-lights.ts';
import { type PlanMove, planMoves, slideEnds } from './plan-moves.ts';
import { breakStrokes, brighterArrow, hottestTick, type PlanMark } from './plan-outlines.ts';
import { componentSeen, type PlanSide, planProjection, type SetPoint } from './plan-projection.ts';
import { planSpill } from './plan-spill.ts';
import type { PlotPoint } from './plot-line.ts';

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
  readonly lights: readonly PlanLight[];
  /** Strokes that fall in from the side of the spill; `null` where none is told or this view does not show its side. */
  readonly spill: PlanMark | null;
  readonly camera: PlotPoint;
  readonly sightPath: string;
  readonly moves: readonly PlanMove[];
  /** Two strokes across each line that is drawn shorter than it is. */
  readonly breaksPath: string;
}

/** How much of the surface is drawn at least, from the middle, in lengths of the frame. */
const BESIDE_FRAME = 0.65;

/** A light nearer the middle than this, in frame widths, stands at no height to speak of. Own allowance. */
const LEAST_HEIGHT = 0.05;

/** Draws the set as far as it is known into the given room, at one scale for both directions. */
export function planView(
  input: PlanInput,
  seenFrom: PlanSide,
  room: { width: number; height: number },
): PlanView {
  const lengths = planLengths(input);
  const frameAlong = lengths.frameWidth.mm * (seenFrom === 'above' ? 1 : input.aspect);
  const brighter = componentSeen(input.brighterDeg, seenFrom);
  const places = lightPlaces(input, lengths, frameAlong, seenFrom);
  const spots = places.map(({ at }) => at);
  const ends = [
    ...places.flatMap(({ at, halfAlong }) => [at[0] - halfAlong, at[0] + halfAlong]),
    ...slideEnds(input.moves, spots, lengths, seenFrom),
  ];
  const beside = BESIDE_FRAME * frameAlong;
  const reach = { from: Math.min(-beside, ...ends), to: Math.max(beside, ...ends) };
  const farthest = Math.max(
    0,
    ...places.map(({ at, halfAway }) => Math.abs(at[1]) + halfAway),
    ...lengths.lampTargetsMm.map((mm) => mm ?? 0),
  );
  const behind = lengths.lampSide > 0 ? farthest : 0;
  const before = Math.max(lengths.cameraDistance.mm, lengths.lampSide < 0 ? farthest : 0);
  const projection = planProjection(seenFrom, { ...reach, behind, before }, room);
  const { place } = projection;
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
    beyondFramePath: line([reach.from, 0], edges[0]) + line(edges[1], [reach.to, 0]),
    hottest: hottestTick(place([hottestAlong, 0]), seenFrom, lengths.lampSide),
    brighter: brighter === 0 ? null : brighterArrow(place([0, 0]), place(brighterEnd), seenFrom),
    lights: places.map((each) => planLight(each, lengths, reach, projection)),
    spill: planSpill(input.spill, frameAlong, projection),
    camera: place(camera),
    sightPath: line(edges[0], camera, edges[1]),
    moves: planMoves(input.moves, spots, lengths, frameAlong, projection),
    breaksPath: breakStrokes(lengths, places, frameAlong, projection),
  };
}

/** Whether anything stands or is to go up or down, so that the view from the side has something to tell. */
export function hasHeights({
  brighterDeg,
  moves,
  foundLights,
  spill,
}: Pick<PlanInput, 'brighterDeg' | 'moves' | 'foundLights' | 'spill'>): boolean {
  if (componentSeen(brighterDeg, 'side') !== 0 || componentSeen(spill?.fromDeg ?? null, 'side') !== 0)
    return true;
  if (foundLights.some(({ down }) => Math.abs(down.value) > Math.max(down.plusMinus, LEAST_HEIGHT)))
    return true;
  return moves.some((move) => {
    if (move.kind === 'slide-lamp')
      return (move.downMm ?? move.downFrameWidths ?? componentSeen(move.toward, 'side')) !== 0;
    return move.kind === 'block-stray' && componentSeen(move.fromDeg, 'side') !== 0;
  });
}
