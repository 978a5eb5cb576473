import type { Move } from '../../../src/engine/moves/move.ts';
import { keptInRoom } from '../../synthetic/random/within-room.ts';
import type { StudioSet } from '../../synthetic/studio/studio-set.ts';

/** A studio whose lights went as far as its walls let them. */
export interface StoppedStudio {
  readonly set: StudioSet;
  /** How far walls have kept a light from where it was sent, at most. */
  readonly shortMm: number;
  /** What was done, as whoever stands there answers: as asked, or as much of it as the wall left. */
  readonly done: readonly Move[];
}

/** Lights sent from `before` to `sent` by moves, stopped by the room's walls; a light that stops keeps its direction. */
export function stoppedByWalls(
  before: StudioSet,
  sent: StudioSet,
  moves: readonly Move[],
  room: Parameters<typeof keptInRoom>[1],
): StoppedStudio {
  const kept = keptInRoom(sent, room);
  const short = sent.lamps.map((lamp, i) => {
    const { xMm, yMm, distanceMm } = kept.lamps[i]!;
    return { xMm: xMm - lamp.xMm, yMm: yMm - lamp.yMm, distanceMm: distanceMm - lamp.distanceMm };
  });
  const set = {
    ...kept,
    lamps: kept.lamps.map((lamp, i) => ({
      ...lamp,
      aimXMm: lamp.aimXMm + short[i]!.xMm,
      aimYMm: lamp.aimYMm + short[i]!.yMm,
    })),
  };
  const shares = before.lamps.map((from, i) => {
    const [to, stood] = [sent.lamps[i]!, kept.lamps[i]!];
    const share = (of: 'xMm' | 'yMm' | 'distanceMm') =>
      to[of] === from[of] ? 1 : (stood[of] - from[of]) / (to[of] - from[of]);
    return { right: share('xMm'), down: share('yMm'), distance: share('distanceMm') };
  });
  return {
    set,
    shortMm: Math.max(0, ...short.map(({ xMm, yMm, distanceMm }) => Math.hypot(xMm, yMm, distanceMm))),
    done: moves.map((move) => ('lamp' in move ? asFarAs(move, shares[move.lamp]!) : move)),
  };
}

function asFarAs(
  move: Move,
  share: { readonly right: number; readonly down: number; readonly distance: number },
): Move {
  const part = (length: number | null, of: number) => (length === null ? null : length * of);
  if (move.kind === 'lamp-distance')
    return { ...move, ratio: move.ratio === null ? null : 1 + (move.ratio - 1) * share.distance };
  if (move.kind !== 'slide-lamp') return move;
  return {
    ...move,
    rightMm: part(move.rightMm, share.right),
    downMm: part(move.downMm, share.down),
    rightFrameWidths: part(move.rightFrameWidths, share.right),
    downFrameWidths: part(move.downFrameWidths, share.down),
  };
}
