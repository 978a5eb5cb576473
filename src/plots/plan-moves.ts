import type { Move } from '../engine/moves/move.ts';
import { arrowHead } from './arrow-head.ts';
import { clipSegment } from './clip-segment.ts';
import { linePath } from './line-path.ts';
import type { PlanLengths } from './plan-lengths.ts';
import type { PlanMark } from './plan-outlines.ts';
import {
  componentSeen,
  type PlanProjection,
  type PlanSide,
  type SetPoint,
  stepFrom,
} from './plan-projection.ts';
import type { PlotPoint } from './plot-line.ts';

/** One move as an arrow. */
export interface PlanMove extends PlanMark {
  /** The move's place in its list, from 0. */
  readonly index: number;
  /** The arrow's head, apart from its shaft, which may be dashed. */
  readonly headPath: string;
  /** Whether its length is drawn to scale; otherwise the arrow is a direction and no more. */
  readonly isMeasured: boolean;
}

/** Arrows whose length means nothing, in drawing units; and the least that can be seen of those whose does. */
const PLAIN_ARROW = 30;
const LEAST_ARROW = 8;

/** A slide that is longer than so many frame widths ends where the drawing does. */
const FARTHEST_SLIDE = 2;

/** The moves that this view can show; the others have no arrow. */
export function planMoves(
  moves: readonly Move[],
  lamps: readonly SetPoint[],
  lengths: PlanLengths,
  frameAlong: number,
  projection: PlanProjection,
): PlanMove[] {
  return moves.flatMap((move, index) => {
    const arrow = arrowOf(move, lamps, lengths, frameAlong, projection);
    if (arrow === null) return [];
    // in a scale of its own no length means anything
    return [{ index, ...arrow, isMeasured: arrow.isMeasured && lengths.frameWidth.isKnown }];
  });
}

type Arrow = Omit<PlanMove, 'index'>;

function arrowOf(
  move: Move,
  lamps: readonly SetPoint[],
  lengths: PlanLengths,
  frameAlong: number,
  projection: PlanProjection,
): Arrow | null {
  const { place, seenFrom } = projection;
  const lamp = 'lamp' in move ? lamps[move.lamp] : undefined;
  const half = lengths.lampWidth.mm / 2;
  const frame = lengths.frameWidth.mm;
  const pick = (right: number | null, down: number | null) => (seenFrom === 'above' ? right : down);
  switch (move.kind) {
    case 'slide-lamp': {
      const { way, mm } = slideSeen(move, frame, seenFrom);
      if (lamp === undefined || way === 0) return null;
      const start: SetPoint = [lamp[0] + way * half, lamp[1]];
      return along(start, way, mm, projection);
    }
    case 'lamp-distance': {
      if (lamp === undefined) return null;
      const target = lengths.lampTargetsMm[move.lamp] ?? null;
      const way = (move.ratio ?? 2) > 1 ? lengths.lampSide : -lengths.lampSide;
      const start = stepFrom(place(lamp), projection, [0, way], 7);
      if (target === null) return arrow(start, stepFrom(start, projection, [0, way], PLAIN_ARROW), false);
      return arrow(
        start,
        place([lamp[0], lengths.lampSide * target]),
        lengths.lampDistances[move.lamp]!.isKnown,
      );
    }
    case 'turn-lamp': {
      if (lamp === undefined) return null;
      const widths = pick(move.aimRightFrameWidths, move.aimDownFrameWidths);
      const mm = pick(move.aimRightMm, move.aimDownMm) ?? (widths === null ? null : widths * frame);
      const way = Math.sign(mm ?? componentSeen(move.toward, seenFrom));
      if (way === 0) return null;
      const start = stepFrom(place(lamp), projection, [0, -lengths.lampSide], 7);
      const ahead = stepFrom(start, projection, [0, -lengths.lampSide], PLAIN_ARROW);
      return arrow(start, stepFrom(ahead, projection, [way, 0], PLAIN_ARROW * 0.6), false);
    }
    case 'block-stray': {
      const side = componentSeen(move.fromDeg, seenFrom);
      if (side === 0) return null;
      const end = stepFrom(place([(Math.sign(side) * frameAlong) / 2, 0]), projection, [0, -1], 4);
      const out = stepFrom(end, projection, [Math.sign(side), 0], PLAIN_ARROW);
      return arrow(stepFrom(out, projection, [0, -1], PLAIN_ARROW * 0.6), end, false);
    }
    default:
      return null;
  }
}

/** Where along the surface the arrows of slides end, so far as their lengths are known and no set is too small for them. */
export function slideEnds(
  moves: readonly Move[],
  places: readonly SetPoint[],
  { lampWidth, frameWidth }: PlanLengths,
  seenFrom: PlanSide,
): number[] {
  const farthest = FARTHEST_SLIDE * frameWidth.mm;
  return moves.flatMap((move) => {
    if (move.kind !== 'slide-lamp') return [];
    const place = places[move.lamp];
    const { way, mm } = slideSeen(move, frameWidth.mm, seenFrom);
    if (place === undefined || mm === null) return [];
    return [place[0] + way * (lampWidth.mm / 2 + Math.min(farthest, Math.abs(mm)))];
  });
}

/** Which way along the surface a view shows a slide (0: not at all), and how far, where that is known. */
function slideSeen(
  move: Move & { kind: 'slide-lamp' },
  frameWidthMm: number,
  seenFrom: PlanSide,
): { way: number; mm: number | null } {
  const [own, widths] =
    seenFrom === 'above' ? [move.rightMm, move.rightFrameWidths] : [move.downMm, move.downFrameWidths];
  const mm = own ?? (widths === null ? null : widths * frameWidthMm);
  return { way: Math.sign(mm ?? componentSeen(move.toward, seenFrom)), mm };
}

/** An arrow along the surface, to scale where its length is known. */
function along(start: SetPoint, way: number, mm: number | null, projection: PlanProjection): Arrow {
  const from = projection.place(start);
  if (mm === null) return arrow(from, stepFrom(from, projection, [way, 0], PLAIN_ARROW), false);
  const units = Math.max(LEAST_ARROW, Math.abs(mm) * projection.unitsPerMm);
  const to = stepFrom(from, projection, [way, 0], units);
  const inside = clipSegment(from, to, projection.width, projection.height);
  return inside === null ? arrow(from, to, true) : arrow(...inside, inside[1] === to);
}

function arrow(from: PlotPoint, to: PlotPoint, isMeasured: boolean): Arrow {
  return { path: linePath([[from, to]]), headPath: arrowHead(from, to, 9), at: to, isMeasured };
}
