import type { Move } from '../engine/moves/move.ts';

/** Hands miss a way by a share of it, and by what no way is too short for; a prediction's ± allows for both. */
const MISSED_SHARE = 0.05;
const MISSED_MM = 6;
const MISSED_WIDTHS = 0.015;
const MISSED_RATIO = 0.03;
const MISSED_STOPS = 0.05;

/** Whether moves were made as they were advised, one for one, as nearly as hands do. */
export function areAsAdvised(done: readonly Move[], advised: readonly Move[]): boolean {
  return done.length === advised.length && done.every((move, i) => isAsAdvised(move, advised[i]!));
}

function isAsAdvised(done: Move, advised: Move): boolean {
  if (lampOf(done) !== lampOf(advised)) return false;
  if (done.kind === 'slide-lamp' && advised.kind === 'slide-lamp')
    return (
      isSameWay([done.rightMm, done.downMm], [advised.rightMm, advised.downMm], MISSED_MM) ??
      isSameWay(
        [done.rightFrameWidths, done.downFrameWidths],
        [advised.rightFrameWidths, advised.downFrameWidths],
        MISSED_WIDTHS,
      ) ??
      false
    );
  if (done.kind === 'turn-lamp' && advised.kind === 'turn-lamp')
    return (
      isSameWay([done.aimRightMm, done.aimDownMm], [advised.aimRightMm, advised.aimDownMm], MISSED_MM) ??
      isSameWay(
        [done.aimRightFrameWidths, done.aimDownFrameWidths],
        [advised.aimRightFrameWidths, advised.aimDownFrameWidths],
        MISSED_WIDTHS,
      ) ??
      false
    );
  if (done.kind === 'lamp-distance' && advised.kind === 'lamp-distance')
    return (
      done.ratio !== null &&
      advised.ratio !== null &&
      Math.abs(Math.log(done.ratio / advised.ratio)) <= MISSED_RATIO
    );
  if (done.kind === 'balance-lamps' && advised.kind === 'balance-lamps')
    return Math.abs(done.stops - advised.stops) <= MISSED_STOPS;
  return done.kind === advised.kind;
}

const lampOf = (move: Move) => ('lamp' in move ? move.lamp : null);

type Way = readonly [right: number | null, down: number | null];

/** `null` where one of the ways is not known in this unit. */
function isSameWay([right, down]: Way, [wantedRight, wantedDown]: Way, missed: number): boolean | null {
  if (right === null || down === null || wantedRight === null || wantedDown === null) return null;
  const off = Math.hypot(right - wantedRight, down - wantedDown);
  return off <= missed + MISSED_SHARE * Math.hypot(wantedRight, wantedDown);
}
