import type { Move } from '../engine/moves/move.ts';
import type { Setup } from '../engine/setup.ts';

/**
 * What became of one move: done as advised, left undone, or done by a length that was measured. `moved` goes with a
 * light that is slid or turned, `stands` with one whose distance changes; `null` is a length nobody measured.
 */
export type MoveAnswer =
  | { readonly kind: 'done' }
  | { readonly kind: 'not-done' }
  | { readonly kind: 'moved'; readonly mm: number | null }
  | { readonly kind: 'stands'; readonly fromMm: number | null; readonly toMm: number | null };

/** One answer for each move of a reading, in its order; `null` where none was given yet. */
export type MoveAnswers = readonly (MoveAnswer | null)[];

/** Which length can be measured of a move: how far, or from where to where; none of most. */
export function measurable(move: Move): 'moved' | 'stands' | null {
  if (move.kind === 'slide-lamp' || move.kind === 'turn-lamp') return 'moved';
  return move.kind === 'lamp-distance' ? 'stands' : null;
}

/**
 * The moves that were made, with the lengths that were measured in place of those advised. Moves not done or not
 * answered are left out. `setup` is as before these moves.
 */
export function doneMoves(moves: readonly Move[], answers: MoveAnswers, setup: Setup): Move[] {
  return moves.flatMap((move, i) => {
    const answer = answers[i] ?? null;
    if (answer === null || answer.kind === 'not-done') return [];
    return [asMeasured(move, answer, setup)];
  });
}

/** The distances at which lights were measured to stand after the moves, per lamp; `null` where none was. */
export function measuredDistances(moves: readonly Move[], answers: MoveAnswers): (number | null)[] {
  const measured: (number | null)[] = [];
  moves.forEach((move, i) => {
    const answer = answers[i];
    if (move.kind !== 'lamp-distance' || answer?.kind !== 'stands' || answer.toMm === null) return;
    while (measured.length <= move.lamp) measured.push(null);
    measured[move.lamp] = answer.toMm;
  });
  return measured;
}

/**
 * Answers with every move that has none taken for done. Framing tighter is for whoever moves nothing: it counts only
 * where nothing else was advised.
 */
export function madeAsTold(moves: readonly Move[], answers: MoveAnswers): MoveAnswers {
  const isAlone = moves.every(({ kind }) => kind === 'frame-tighter');
  return moves.map(({ kind }, i) => {
    const isMade = isAlone || kind !== 'frame-tighter';
    return answers[i] ?? (isMade ? { kind: 'done' } : { kind: 'not-done' });
  });
}

/** Answers brought over to moves advised anew: each to the like move of the same light, `null` to any other. */
export function carriedAnswers(
  before: readonly Move[],
  answers: MoveAnswers,
  after: readonly Move[],
): MoveAnswers {
  const given = new Map(nameEach(before).map((name, i) => [name, answers[i] ?? null]));
  return nameEach(after).map((name) => given.get(name) ?? null);
}

/** "slide-lamp 0", "slide-lamp 1", and a further number where one is advised twice. */
function nameEach(moves: readonly Move[]): string[] {
  const seen = new Map<string, number>();
  return moves.map((move) => {
    const name = 'lamp' in move ? `${move.kind} ${move.lamp}` : move.kind;
    const times = seen.get(name) ?? 0;
    seen.set(name, times + 1);
    return times === 0 ? name : `${name} ${times}`;
  });
}

function asMeasured(move: Move, answer: MoveAnswer, setup: Setup): Move {
  if (answer.kind === 'stands' && move.kind === 'lamp-distance') {
    const from = answer.fromMm ?? setup.lampDistanceMm[move.lamp] ?? null;
    const to = answer.toMm;
    return { ...move, ratio: from === null || to === null ? null : to / from };
  }
  if (answer.kind !== 'moved') return move;
  if (move.kind === 'slide-lamp') {
    const way = wayOf(move.rightMm, move.downMm, move.rightFrameWidths, move.downFrameWidths, move.toward);
    const [rightMm, downMm] = along(way, answer.mm, 1);
    const [rightFrameWidths, downFrameWidths] = along(way, answer.mm, setup.frameWidthMm);
    return { ...move, rightMm, downMm, rightFrameWidths, downFrameWidths };
  }
  if (move.kind === 'turn-lamp') {
    const { aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths, toward } = move;
    const way = wayOf(aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths, toward);
    const mm = along(way, answer.mm, 1);
    const widths = along(way, answer.mm, setup.frameWidthMm);
    return {
      ...move,
      aimRightMm: mm[0],
      aimDownMm: mm[1],
      aimRightFrameWidths: widths[0],
      aimDownFrameWidths: widths[1],
    };
  }
  return move;
}

/** The direction of a move as (right, down) of length 1; `null` where it has none. */
function wayOf(
  rightMm: number | null,
  downMm: number | null,
  rightWidths: number | null,
  downWidths: number | null,
  towardDeg: number | null,
): readonly [right: number, down: number] | null {
  const right = rightMm ?? rightWidths ?? 0;
  const down = downMm ?? downWidths ?? 0;
  const length = Math.hypot(right, down);
  if (length > 0) return [right / length, down / length];
  if (towardDeg === null) return null;
  return [Math.cos((towardDeg * Math.PI) / 180), Math.sin((towardDeg * Math.PI) / 180)];
}

/** A length along a way, in units of so many mm; both `null` where the way, the length or the unit is unknown. */
function along(
  way: readonly [number, number] | null,
  mm: number | null,
  unitMm: number | null,
): readonly [number | null, number | null] {
  if (way === null || mm === null || unitMm === null) return [null, null];
  return [(way[0] * mm) / unitMm, (way[1] * mm) / unitMm];
}
