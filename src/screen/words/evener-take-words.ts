import type { FrameRectangle } from '../../engine/reading.ts';
import type { Setup } from '../../engine/setup.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { judgedFigure } from '../../plots/judged-figure.ts';
import { type MoveBack, movesBack } from '../../takes/moves-back.ts';
import { haveOneShape } from '../../takes/second-frames.ts';
import { setupAtTake } from '../../takes/setup-after.ts';
import { doneSince, type HeldTake, takeNumber, takesOfSetup } from '../../takes/take.ts';
import type { LengthUnit } from './length-words.ts';
import { lightWords } from './light-move-words.ts';
import { whatToDo } from './move-words.ts';

/** That an earlier take was more even than the newest, and how to go back to it, step by step. */
export interface EvenerTakeWords {
  readonly says: string;
  /** Empty where the way is not known, or there is none to go. */
  readonly steps: readonly string[];
}

type JudgedTake = Pick<HeldTake, 'id' | 'reading' | 'done' | 'setup' | 'measuredMm' | 'note'>;

/** `null` where no earlier take of the newest one's set-up is more even than it by more than both their ±. */
export function evenerTakeWords(
  takes: readonly JudgedTake[],
  tolerance: Tolerance,
  unit: LengthUnit,
): EvenerTakeWords | null {
  const best = evenerTake(takes, tolerance);
  if (best === null) return null;
  const evener = `Take ${takeNumber(best)} of this set-up was more even than the newest`;
  const back = movesBack(doneSince(takes, best.id));
  if (back === null)
    return { says: `${evener}; it is not known in figures what was moved since.`, steps: [] };
  if (back.length === 0) return { says: `${evener}, though no light was moved since.`, steps: [] };
  const stands = setupAtTake(takes, takes.at(-1)!.id);
  return {
    says: `${evener}. To go back to it:`,
    steps: back.map((each) => stepWords(each, stands, unit)),
  };
}

function evenerTake(takes: readonly JudgedTake[], tolerance: Tolerance): JudgedTake | null {
  const newest = takes.at(-1);
  if (newest === undefined) return null;
  const ofSetup = takesOfSetup(takes, newest.id);
  const judged = ({ reading }: JudgedTake) => judgedFigure(reading.falloff, tolerance);
  const now = judged(newest);
  const best = takes
    .filter((take) => take !== newest && ofSetup.has(take.id))
    .filter(({ reading }) => !reading.falloff.isLowerBound && areOfOnePart(reading, newest.reading))
    .toSorted((a, b) => judged(a).value - judged(b).value)[0];
  if (best === undefined) return null;
  const { value, plusMinus } = judged(best);
  return now.value - value > Math.hypot(now.plusMinus, plusMinus) ? best : null;
}

/** A found region's sides differ by so much of the frame from take to take of one background. Own choice. */
const SAME_SIDE = 0.02;

/** Another part of the background is more or less even by itself. */
function areOfOnePart(a: JudgedTake['reading'], b: JudgedTake['reading']): boolean {
  const sides: readonly (keyof FrameRectangle)[] = ['left', 'top', 'right', 'bottom'];
  return (
    haveOneShape(a.frame, b.frame) &&
    sides.every((side) => Math.abs(a.region[side] - b.region[side]) <= SAME_SIDE)
  );
}

function stepWords({ kind, move }: MoveBack, setup: Setup, unit: LengthUnit): string {
  if (kind === 'make') return whatToDo(move, setup, unit);
  switch (move.kind) {
    case 'gel':
      return `Take the gel off ${lightWords(move.lamp, setup)} again.`;
    case 'lamp-colour':
      return `Set ${lightWords(move.lamp, setup)} back to the colour it had.`;
    case 'add-diffusion':
      return 'Take the added layer of diffusion down again.';
    case 'block-stray':
      return 'Let the spill in again: take away what blocks it.';
  }
}
