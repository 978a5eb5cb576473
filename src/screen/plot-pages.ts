import { castPlane } from '../plots/cast-plane.ts';
import { differenceSize, lightDifferencePlot, tintDifferencePlot } from '../plots/difference-plot.ts';
import { drawnAtOnce } from '../plots/drawn-in-steps.ts';
import { castDrawing } from '../plots/files/cast-drawing.ts';
import { mapDrawing } from '../plots/files/map-drawing.ts';
import { planDrawing } from '../plots/files/plan-drawing.ts';
import { responseDrawing } from '../plots/files/response-drawing.ts';
import { sectionDrawing } from '../plots/files/section-drawing.ts';
import { type Drawing, type SvgPage, svgPage } from '../plots/files/svg-page.ts';
import { takesDrawing } from '../plots/files/takes-drawing.ts';
import { cellAtPlace, mapLayout, placeInDrawing } from '../plots/map-layout.ts';
import { falloffPlot, tintPlot } from '../plots/map-plot.ts';
import { believedSet, planInput } from '../plots/plan-input.ts';
import { firstSide, planPage } from '../plots/plan-page.ts';
import { responsePlot } from '../plots/response-plot.ts';
import { sectionPlot } from '../plots/section-plot.ts';
import { takesLine } from '../plots/takes-line.ts';
import { whiteLoci } from '../plots/white-loci.ts';
import { toldBefore } from '../takes/foretold.ts';
import { setupAtTake } from '../takes/setup-after.ts';
import { type PlottedTake, withTakeBefore } from './plot-files.ts';
import { castSummary } from './words/cast-words.ts';
import { differenceLegend, differenceSummary } from './words/compare-words.ts';
import { decimals } from './words/figures.ts';
import { type MapMode, mapLegend, mapSummary } from './words/map-words.ts';
import { planNotes, planSummary, scaleWords } from './words/plan-words.ts';
import {
  castLegend,
  PLOT_TITLES,
  type PlotFile,
  RESPONSE_LEGEND,
  sectionNames,
  sectionsLegend,
  sectionsSummary,
  TAKES_LEGEND,
  takeHeading,
} from './words/plot-file-words.ts';
import { channelWords, plotSummary } from './words/response-words.ts';
import { AXIS_WORDS, limitWords, markFigure, takesSummary, tickFigure } from './words/take-words.ts';

/** 160 mm wide, and less where that would be higher than a page is. */
const ROOM = { width: 640, height: 720 };
const SECTION = { length: 560, depth: 150, fontSize: 12 };
const CAST = 360;
const RESPONSE = { width: 480, height: 320 };

/** One plot of a take as a page of its own. @throws RangeError where there is none of that kind. */
export function plotPage(file: PlotFile, of: PlottedTake): SvgPage {
  const { drawing, says, legend, heading = takeHeading(of.take) } = DRAWN[file](of);
  return svgPage(drawing, { title: PLOT_TITLES[file], of: heading, says, legend });
}

/** A drawing with its words; `heading` where it is of more than the one take. */
interface Drawn {
  readonly drawing: Drawing;
  readonly says: string;
  readonly legend: string;
  readonly heading?: string;
}

const DRAWN: Record<PlotFile, (of: PlottedTake) => Drawn> = {
  light: (of) => map('light', of),
  tint: (of) => map('tint', of),
  sections,
  plan,
  cast,
  takes: line,
  difference: (of) => difference('light', of),
  'tint-difference': (of) => difference('tint', of),
  response,
};

function map(mode: MapMode, { take: { reading, report }, tolerance }: PlottedTake): Drawn {
  const layout = mapLayout(reading, { width: ROOM.width + 150, height: ROOM.height });
  const steps = mode === 'light' ? falloffPlot : tintPlot;
  const plot = drawnAtOnce(steps(reading, tolerance, layout, report.grid.highlightShare));
  return {
    drawing: mapDrawing(plot, layout),
    says: mapSummary(mode, reading),
    legend: mapLegend(mode, plot, reading, tolerance, false),
  };
}

function sections({ take: { reading }, tolerance }: PlottedTake): Drawn {
  const whole = { width: 1, height: 1 };
  const spot = cellAtPlace(reading, whole, placeInDrawing(reading, whole, reading.falloff.brightestAt));
  const [across, down] = sectionNames(reading);
  const figureOf = (ev: number) => (ev === 0 ? '0' : decimals(ev, 1));
  const section = (direction: 'across' | 'down', name: string) => ({
    plot: sectionPlot(reading, tolerance, direction, spot, SECTION),
    ...{ name, figureOf },
  });
  return {
    drawing: sectionDrawing([section('across', across), section('down', down)]),
    says: sectionsSummary(reading),
    legend: sectionsLegend(reading),
  };
}

function plan({ take, takes, unit }: PlottedTake): Drawn {
  const setup = setupAtTake(takes, take.id);
  const told = toldBefore(takes, take.id);
  const reading = told === null ? take.reading : { ...take.reading, ...told };
  const input = planInput(reading, setup, believedSet(take.report, setup));
  const page = planPage(input, firstSide(input), (view) => planNotes(view, input, unit));
  return {
    drawing: planDrawing(page),
    says: planSummary(page.view, input, unit),
    legend: scaleWords(page.view, setup),
  };
}

function line({ takes, tolerance }: PlottedTake): Drawn {
  const plot = takesLine(takes, tolerance, { width: ROOM.width, height: 280 });
  const digits = tolerance.measure === 'range' ? Math.max(1, plot.tickDigits) : 0;
  const drawing = takesDrawing(plot, {
    ...{ axis: AXIS_WORDS[tolerance.measure], limit: limitWords(tolerance), next: 'next' },
    tickOf: (value) => tickFigure(value, tolerance, digits),
    figures: takes.map(({ reading }) => markFigure(reading.falloff, tolerance)),
  });
  const heading =
    takes.length === 1
      ? takeHeading(takes[0]!)
      : `${takes.length} takes, the newest: ${takeHeading(takes.at(-1)!)}`;
  return { drawing, says: takesSummary(takes, tolerance), legend: TAKES_LEGEND, heading };
}

function cast({ take: { reading }, tolerance }: PlottedTake): Drawn {
  return {
    drawing: castDrawing(castPlane(reading, tolerance, whiteLoci(), CAST)),
    says: castSummary(reading, tolerance),
    legend: castLegend(tolerance),
  };
}

function response({ take }: PlottedTake): Drawn {
  const { response: known } = take.report.readBy;
  if (known === null) throw new RangeError('this take was read by no response');
  const plot = responsePlot(known, RESPONSE);
  const drawing = responseDrawing(plot, {
    ...{ codes: 'Code in the file', light: 'Light, stops below white', srgb: 'sRGB' },
    curves: plot.curves.map(({ channels }) => channelWords(channels)),
  });
  return { drawing, says: plotSummary(known), legend: RESPONSE_LEGEND };
}

function difference(mode: MapMode, of: PlottedTake): Drawn {
  const { take, tolerance } = of;
  const found = withTakeBefore(of);
  if (found === null) throw new RangeError('there is no take before this one to compare');
  const { before, compared } = found;
  const size = differenceSize(compared, take.reading.frame, ROOM);
  const limit = tolerance.tintDeltaUv;
  const plot = drawnAtOnce(
    mode === 'light' ? lightDifferencePlot(compared, size) : tintDifferencePlot(compared, limit, size),
  );
  return {
    drawing: mapDrawing(plot, size),
    says: differenceSummary(mode, compared),
    legend: differenceLegend(mode, plot, compared, limit),
    heading: `${takeHeading(take)}. Against ${takeHeading(before)}`,
  };
}
