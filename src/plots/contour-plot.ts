import type { CellMap } from './cell-map.ts';
import type { DrawnInSteps } from './drawn-in-steps.ts';
import { brokenAt, labelSpot } from './label-spot.ts';
import { linePath } from './line-path.ts';
import { mapLines } from './map-lines.ts';
import type { OrientedBox } from './oriented-box.ts';
import { distancesAlong, isClosed, type PlotLine, withBounds } from './plot-line.ts';

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
  /** Lines drawn over the contours, which labels avoid where they can. */
  readonly marks?: readonly PlotLine[];
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

/** Widths of a digit, and the least length of an island, in font sizes. */
const DIGIT_WIDTH = 0.62;
const BOLD_DIGIT_WIDTH = 0.68;
const LEAST_ISLAND = 3;

/** Contours of a map as paths and labels in drawing units. No two labels overlap. NaN cells are holes. */
export function* contourPlot(
  map: CellMap,
  options: ContourOptions,
  linesOf = mapLines,
): DrawnInSteps<ContourPlot> {
  const { width, height, toleranceLevels, fontSize } = options;
  const { levels, step, at } = linesOf(map, options);
  const wanted = [
    ...toleranceLevels.map((level) => ({ level, isTolerance: true })),
    ...levels
      .filter((level) => toleranceLevels.every((limit) => Math.abs(limit - level) > step * 0.45))
      .map((level) => ({ level, isTolerance: false })),
  ];
  const drawn = [];
  for (const each of wanted) {
    const lines = at(each.level);
    drawn.push({
      ...each,
      lines: each.isTolerance ? lines : lines.filter((line) => !isSpeck(line, fontSize)),
    });
    yield;
  }
  const everyLine = drawn.flatMap(({ lines }) => lines.map(withBounds));
  const labels: ContourLabel[] = [];
  const contourLines: ContourLine[] = [];
  for (const { level, isTolerance, lines } of drawn) {
    const text = options.labelOf(level);
    const digitWidth = isTolerance ? BOLD_DIGIT_WIDTH : DIGIT_WIDTH;
    const size = { width: text.length * digitWidth * fontSize, height: fontSize * 1.1 };
    const pieces: PlotLine[] = [];
    for (const line of lines) {
      const taken = [...labels, ...(options.keepClear ?? [])];
      const alike = labels.filter((label) => label.text === text);
      const around = { width, height, taken, alike, lines: everyLine, marks: options.marks ?? [] };
      const spot = labelSpot(line, size, around);
      if (spot === null) pieces.push(line);
      else {
        labels.push({ ...spot.box, text, isTolerance });
        pieces.push(...brokenAt(line, spot));
      }
    }
    contourLines.push({ level, isTolerance, path: linePath(pieces) });
    yield;
  }
  return { lines: contourLines.filter(({ path }) => path !== '').reverse(), labels, step };
}

/** A closed line too short to hold anything: noise's island, not the light's. */
function isSpeck(line: PlotLine, fontSize: number): boolean {
  return isClosed(line) && distancesAlong(line)[line.length - 1]! < LEAST_ISLAND * fontSize;
}
