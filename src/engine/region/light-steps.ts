import { stepsAlongLine } from './steps-along-line.ts';

/** An abrupt change of light between two cells of one row or column, by their indices. */
export interface LightStep {
  readonly bright: number;
  readonly dark: number;
  readonly stops: number;
}

export interface LightSteps {
  readonly steps: readonly LightStep[];
  /** 1 for every cell between both sides of a step, and for its darker end; row-major. */
  readonly barrier: Uint8Array;
}

/** Finds the steps of at least `leastStops` along every row and column of a map of levels in stops. */
export function lightSteps(
  levels: Float64Array,
  columns: number,
  rows: number,
  leastStops: number,
): LightSteps {
  const steps: LightStep[] = [];
  const barrier = new Uint8Array(levels.length);
  const along = (start: number, stride: number, count: number) => {
    const line = Float64Array.from({ length: count }, (_, k) => levels[start + k * stride]!);
    for (const { bright, dark, stops } of stepsAlongLine(line, leastStops)) {
      steps.push({ bright: start + bright * stride, dark: start + dark * stride, stops });
      const inward = Math.sign(bright - dark);
      for (let k = dark; k !== bright; k += inward) barrier[start + k * stride] = 1;
    }
  };
  for (let row = 0; row < rows; row++) along(row * columns, 1, columns);
  for (let column = 0; column < columns; column++) along(column, columns, rows);
  return { steps, barrier };
}
