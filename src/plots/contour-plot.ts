import type { CellMap } from './cell-map.ts';
import { contourLevels } from './contour-levels.ts';
import type { DrawnInSteps } from './drawn-in-steps.ts';
import { isoLines } from './iso-lines.ts';
import { type LabelSpot, labelSpot } from './label-spot.ts';
import { linePath } from './line-path.ts';
import type { OrientedBox } from './oriented-box.ts';
import { distancesAlong, type PlotLine, stretchOf } from './plot-line.ts';

export interface ContourOptions {
  /** Size of the drawing that the map fills. */
  readonly width: number;
  readonly height: number;
  /** Finest step between lines: 0.1 stop, or 0.001 of Δu′v′. */
  readonly unit: number;
  /** Levels to mark as the tolerance; they are drawn whatever the step. */
  readonly toleranceLevels: readonly number[];
  readonly labelOf: (level: number) => string;
  readonly fontSize: number;
  /** Places where no label may stand. */
  readonly keepClear?: readonly OrientedBox[];
}

export interface ContourLine {
  readonly level: number;
  readonly isTolerance: boolean;
  /** SVG path data, broken where the labels stand. */
  readonly path: string;
}

export interface ContourLabel extends OrientedBox {
  readonly text: string;
  readonly isTolerance: boolean;
}

/** Lines of one map, the tolerance's last so that they are drawn on top. */
export interface ContourPlot {
  readonly lines: readonly ContourLine[];
  readonly labels: readonly ContourLabel[];
  readonly step: number;
}

/** Least distance between lines on most of the map, and width of a digit, in font sizes. */
const LINE_SPACING = 1.4;
const DIGIT_WIDTH = 0.6;

/** Contours of a map as paths and labels in drawing units. No two labels overlap. NaN cells are holes. */
export function* contourPlot(map: CellMap, options: ContourOptions): DrawnInSteps<ContourPlot> {
  const { width, height, toleranceLevels, fontSize } = options;
  const { levels, step } = contourLevels(map, {
    unit: options.unit,
    cellSize: width / map.columns,
    leastSpacing: fontSize * LINE_SPACING,
  });
  const wanted = [
    ...toleranceLevels.map((level) => ({ level, isTolerance: true })),
    ...levels
      .filter((level) => toleranceLevels.every((limit) => Math.abs(limit - level) > step * 0.45))
      .map((level) => ({ level, isTolerance: false })),
  ];
  const drawn = [];
  for (const each of wanted) {
    drawn.push({ ...each, lines: scaledLines(map, each.level, width, height) });
    yield;
  }
  const everyLine = drawn.flatMap(({ lines }) => lines);
  const labels: ContourLabel[] = [];
  const contourLines: ContourLine[] = [];
  for (const { level, isTolerance, lines } of drawn) {
    const text = options.labelOf(level);
    const size = { width: text.length * DIGIT_WIDTH * fontSize, height: fontSize * 1.1 };
    const pieces = lines.flatMap((line) => {
      const taken = [...labels, ...(options.keepClear ?? [])];
      const spot = labelSpot(line, size, { width, height, labels: taken, otherLines: everyLine });
      if (spot !== null) labels.push({ ...spot.box, text, isTolerance });
      return broken(line, spot);
    });
    contourLines.push({ level, isTolerance, path: linePath(pieces) });
    yield;
  }
  return { lines: contourLines.filter(({ path }) => path !== '').reverse(), labels, step };
}

function scaledLines(map: CellMap, level: number, width: number, height: number): PlotLine[] {
  const acrossScale = width / map.columns;
  const downScale = height / map.rows;
  return isoLines(map, level).map((line) => line.map(([x, y]) => [x * acrossScale, y * downScale] as const));
}

function broken(line: PlotLine, spot: LabelSpot | null): PlotLine[] {
  if (spot === null) return [line];
  const along = distancesAlong(line);
  return [
    stretchOf(line, along, 0, spot.gapFrom),
    stretchOf(line, along, spot.gapTo, along[along.length - 1]!),
  ];
}
