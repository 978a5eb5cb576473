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
  return (point) => {
    let index = 0;
    const deviates = (name: string, pointAt: Parameter['pointAt']): number => {
      const at = index++;
      if (at >= list.length) list.push({ name, pointAt });
      return at < point.length ? point[at]! : 0;
    };
    const next = (name: string, expected: number, deviation: number): number =>
      expected + deviation * deviates(name, (figure) => (figure - expected) / deviation);
    const rarely: NextParameter['rarely'] = (name, usual, { tail = 1.6, most = MOST } = {}) => {
      const wild =
        (usual / 2) *
        Math.sinh(
          tail *
            deviates(name, (figure) => Math.asinh((2 * most * Math.atanh(figure / most)) / usual) / tail),
        );
      return most * Math.tanh(wild / most);
    };
    return Object.assign(next, { rarely });
  };
}
