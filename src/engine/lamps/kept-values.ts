/** Values that are worked out anew only where a figure that they follow from changes. */
export interface KeptValues {
  of(on: readonly number[], workOut: (into: Float64Array) => void): Float64Array;
  /** Beside what `of` keeps, which stays: for a step to the side and back. */
  near(on: readonly number[], workOut: (into: Float64Array) => void): Float64Array;
}

export function keptValues(length: number): KeptValues {
  const [held, aside] = [kept(length), kept(length)];
  return {
    of: (on, workOut) => upToDate(held, on, workOut),
    near: (on, workOut) => (areSame(held.on, on) ? held.values : upToDate(aside, on, workOut)),
  };
}

interface Kept {
  on: readonly number[];
  readonly values: Float64Array;
}

const kept = (length: number): Kept => ({ on: [Number.NaN], values: new Float64Array(length) });

function upToDate(held: Kept, on: readonly number[], workOut: (into: Float64Array) => void): Float64Array {
  if (!areSame(held.on, on)) {
    workOut(held.values);
    held.on = on;
  }
  return held.values;
}

function areSame(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
