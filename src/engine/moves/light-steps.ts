import { type LightChange, NO_CHANGE } from '../lamps/light-change.ts';

/** A way in which one light can be moved; each is a move of its own. */
export type LightStep = 'slide' | 'distance' | 'turn' | 'power';

/** Figures of each: so many numbers say how far. */
const FIGURES: Record<LightStep, number> = { slide: 2, distance: 1, turn: 2, power: 1 };

/** One step of one light. */
export interface StepOfLight {
  readonly lamp: number;
  readonly step: LightStep;
}

/** A number of 1 stands for a way of so many frame widths, such a change of distance, or so many stops. */
const WAY = 0.3;
const LOG_RATIO = 0.3;
const STOPS = 0.5;

/** Counts the numbers that say how far each of the steps goes. */
export const figureCount = (steps: readonly StepOfLight[]): number =>
  steps.reduce((sum, { step }) => sum + FIGURES[step], 0);

/** The changes that numbers stand for, for so many lights. */
export function changesOf(
  steps: readonly StepOfLight[],
  numbers: ArrayLike<number>,
  lights: number,
): LightChange[] {
  const changes = Array.from({ length: lights }, () => ({ ...NO_CHANGE }));
  let at = 0;
  for (const { lamp, step } of steps) {
    const [first, second] = [numbers[at]!, numbers[at + 1]!];
    at += FIGURES[step];
    if (step === 'slide') Object.assign(changes[lamp]!, { right: WAY * first, down: WAY * second });
    else if (step === 'distance') Object.assign(changes[lamp]!, { ratio: Math.exp(LOG_RATIO * first) });
    else if (step === 'turn') Object.assign(changes[lamp]!, { aimRight: WAY * first, aimDown: WAY * second });
    else Object.assign(changes[lamp]!, { stops: STOPS * first });
  }
  return changes;
}

/** The numbers that stand for changes: the inverse of {@link changesOf}. */
export function numbersOf(steps: readonly StepOfLight[], changes: readonly LightChange[]): Float64Array {
  return Float64Array.from(
    steps.flatMap(({ lamp, step }) => {
      const { right, down, ratio, aimRight, aimDown, stops } = changes[lamp]!;
      if (step === 'slide') return [right / WAY, down / WAY];
      if (step === 'distance') return [Math.log(ratio) / LOG_RATIO];
      return step === 'turn' ? [aimRight / WAY, aimDown / WAY] : [stops / STOPS];
    }),
  );
}
