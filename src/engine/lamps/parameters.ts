/** One figure of a set that the fit may change: what is expected of it before the frame is seen. */
export interface Parameter {
  readonly name: string;
  /** Where its figure stands, in standard deviations of what is expected: the inverse of building. */
  readonly pointAt: (figure: number) => number;
}

/** Gives figures of a set in the order of building; the first round only names them. */
export interface NextParameter {
  /** A figure that is normally about what is expected. */
  (name: string, expected: number, deviation: number): number;
  /**
   * A figure that is mostly within `usual` of nothing, and now and then far from it. `tail` says how far: of 1.6, half
   * of them lie within 0.65 × usual and one in twenty beyond 6 ×; of 1.2, within 0.45 × and beyond 2.6 ×. It never passes `most` either way.
   */
  rarely(name: string, usual: number, options?: { readonly tail?: number; readonly most?: number }): number;
}

/** Beyond this, in whatever unit, no figure of a set is worth a thought. */
const MOST = 1000;

/**
 * Lets a set be built from a point by asking for each figure where it is used: names and expectations stand there
 * and nowhere else. A point that is too short gives what is expected, and lists what was asked.
 */
export function parameterReader(list: Parameter[]): (point: Float64Array) => NextParameter {
  let at: Float64Array = new Float64Array(0);
  let index = 0;
  const wilds: Wild[] = [];
  const next = (name: string, expected: number, deviation: number): number => {
    if (index >= list.length) list.push({ name, pointAt: (figure) => (figure - expected) / deviation });
    const i = index++;
    return i < at.length ? expected + deviation * at[i]! : expected;
  };
  const rarely: NextParameter['rarely'] = (name, usual, { tail = 1.6, most = MOST } = {}) => {
    if (index >= list.length)
      list.push({
        name,
        pointAt: (figure) => Math.asinh((2 * most * Math.atanh(figure / most)) / usual) / tail,
      });
    const i = index++;
    const deviates = i < at.length ? at[i]! : 0;
    // of a step along one figure all others are as before
    const before = wilds[i];
    if (
      before?.deviates === deviates &&
      before.usual === usual &&
      before.tail === tail &&
      before.most === most
    )
      return before.figure;
    const figure = most * Math.tanh(((usual / 2) * Math.sinh(tail * deviates)) / most);
    wilds[i] = { deviates, usual, tail, most, figure };
    return figure;
  };
  const reader = Object.assign(next, { rarely });
  return (point) => {
    at = point;
    index = 0;
    return reader;
  };
}

/** A figure as it was last asked for, and what it followed from. */
interface Wild {
  readonly deviates: number;
  readonly usual: number;
  readonly tail: number;
  readonly most: number;
  readonly figure: number;
}
