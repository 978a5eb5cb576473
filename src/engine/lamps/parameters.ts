/** One figure of a set that the fit may change: what is expected of it before the frame is seen. */
export interface Parameter {
  readonly name: string;
  readonly expected: number;
  readonly deviation: number;
}

/** What is expected of lengths: the natural logarithm in frame widths, and its deviation. */
export interface Known {
  readonly lampDistance: (lamp: number) => readonly [expected: number, deviation: number];
  readonly lampRadius: readonly [expected: number, deviation: number];
  readonly cameraDistance: readonly [expected: number, deviation: number];
}

/** The next parameter's value in the order of building; the first round only names them. */
export type NextParameter = (name: string, expected: number, deviation: number) => number;

/**
 * Lets a set be built from a point by asking for each figure where it is used: names and expectations stand there
 * and nowhere else. A point that is too short gives what is expected, and lists what was asked.
 */
export function parameterReader(list: Parameter[]): (point: Float64Array) => NextParameter {
  return (point) => {
    let index = 0;
    return (name, expected, deviation) => {
      const at = index++;
      if (at >= list.length) list.push({ name, expected, deviation });
      return at < point.length ? expected + deviation * point[at]! : expected;
    };
  };
}
