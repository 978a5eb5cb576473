import type { FittedSet, Mode } from '../../../src/engine/lamps/fit-set.ts';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';

/** A mode about a point whose figures vary independently by those deviations. */
export function modeOf(
  setAt: (point: Float64Array) => LitSet,
  deviations: readonly number[],
  weight = 1,
  point: readonly number[] = deviations.map(() => 0),
): Mode {
  const size = deviations.length;
  const information = new Float64Array(size * size);
  deviations.forEach((deviation, i) => {
    information[i * size + i] = 1 / deviation ** 2;
  });
  const parameters = deviations.map((_, i) => ({ name: `figure ${i}`, pointAt: (figure: number) => figure }));
  return { model: { parameters, setAt }, point: Float64Array.from(point), information, weight };
}

/** What a fit hands on of modes, likeliest first. */
export function fittedOf(modes: readonly Mode[]): FittedSet {
  const [best] = modes;
  return { modes, set: best!.model.setAt(best!.point), leftOver: [{ ev: 0.004, uv: 0.0001 }] };
}
