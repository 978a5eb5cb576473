import type { Change, Comparison, NotComparable } from '../../engine/compare/compare-readings.ts';
import type { LightUnknown } from '../../engine/compare/light-reaching.ts';
import type { DifferencePlot } from '../../plots/difference-plot.ts';
import { chromaticity, decimals, plusMinus, plusMinusStops, stops } from './figures.ts';
import type { MapMode } from './map-words.ts';
import { isWholeFrame } from './region-words.ts';
import { colourFigure } from './tolerance-words.ts';

export const NOT_COMPARABLE_WORDS: Record<NotComparable, string> = {
  turned:
    'One was shot with the camera upright, the other with it level: a place in one is no place in the other.',
  'other-shape': 'Their frames are not of one shape: a place in one is no place in the other.',
  'nothing-in-common': 'The parts of the frame that were read of them have too little in common.',
};

/** Why it is not told how much light a take had. */
export const LIGHT_UNKNOWN_WORDS: Record<LightUnknown, string> = {
  'no-exposure': 'not known: a file does not say how it was exposed',
  clipped: 'not known: some of the light is clipped',
  'no-level': 'not known: this take was kept without its level',
  'kind-of-light':
    'not known: shutter times differ, which matters unless it is flash; say above which light it is',
};

const SAME = 'the same within';

/** "0.35 stop less ± 0.03"; what lies within its ± is no change. */
function changeWords(
  { value, plusMinus: pm }: Change,
  figure: (size: number) => string,
  digits: number,
): string {
  if (Math.abs(value) <= pm) return `${SAME}${plusMinus(pm, digits)}`;
  return `${figure(Math.abs(value))} ${value < 0 ? 'less' : 'more'}${plusMinus(pm, digits)}`;
}

/** What changed, each with its ±. `light`: stops that were gained in common, or why that is not known. */
export function compareFigures(
  compared: Comparison,
  light: number | LightUnknown,
): readonly (readonly [name: string, figure: string])[] {
  const { spread, tint, cast, rmsEv, rmsDeltaUv } = compared;
  const uv = (size: number) => `${chromaticity(size)}\u00a0Δu′v′`;
  return [
    [
      'Spread',
      spread === null
        ? 'not known: some of the light is clipped'
        : changeWords(spread, (size) => stops(size, 2), 2),
    ],
    ['Tint', changeWords(tint, uv, 4)],
    [
      'Cast',
      cast.value <= cast.plusMinus
        ? `${SAME}${plusMinus(cast.plusMinus, 4)}`
        : `moved by ${uv(cast.value)}${plusMinus(cast.plusMinus, 4)}`,
    ],
    [
      'Light, place by place',
      `typically differs by ${stops(rmsEv.value, 2)}${plusMinus(rmsEv.plusMinus, 2)} (rms)`,
    ],
    ['Tint, place by place', `typically differs by ${uv(rmsDeltaUv)} (rms)`],
    ['Light in common', typeof light === 'number' ? lightOverWords(light) : LIGHT_UNKNOWN_WORDS[light]],
  ];
}

/** "1.3 stops lost". */
export function lightOverWords(ev: number): string {
  const figure = stops(Math.abs(ev));
  return Number(Math.abs(ev).toFixed(1)) === 0 ? 'as much' : `${figure} ${ev < 0 ? 'lost' : 'gained'}`;
}

/** What the lines, greys and hatching of a map of differences mean. */
export function differenceLegend(
  mode: MapMode,
  plot: DifferencePlot,
  compared: Comparison,
  limitDeltaUv: number,
): string {
  const part = isWholeFrame(compared.region)
    ? ''
    : ' Compared is the part of the frame that was read of both.';
  if (mode === 'tint') {
    const isDrawn = plot.contours.lines.some((line) => line.isTolerance);
    const limit = `your limit, ${colourFigure(limitDeltaUv)} Δu′v′`;
    const { strengthened } = plot.picture;
    return `How the tint moved, what moved in common taken out. Lines every ${decimals(plot.contours.step, 3)} Δu′v′; ${isDrawn ? `the bold line is ${limit}` : `${limit}, is reached nowhere`}. Its direction is drawn ${strengthened === 1 ? 'as strong as it is' : `${decimals(strengthened, 0)} times stronger than it is`}; darker means more.${part}`;
  }
  if (plot.lowerPath === '')
    return `No place changed by more than ${plusMinusStops(compared.cellPlusMinusEv)} against the others.${part}`;
  return `What changed in common is taken out. Bold: no change. Hatched and darker: it lost light against the rest; lighter: it gained. Lines every ${stops(plot.contours.step, plot.contours.step < 0.1 ? 2 : 1)}; the greys end at ±\u00a0${stops(plot.reachEv, plot.reachEv < 0.1 ? 2 : 1)}. One place is known to ${plusMinusStops(compared.cellPlusMinusEv)}.${part}`;
}

/** The map in one sentence for those who do not see it. */
export function differenceSummary(mode: MapMode, compared: Comparison): string {
  if (mode === 'tint')
    return `The tint typically moved by ${chromaticity(compared.rmsDeltaUv)} Δu′v′ (rms), what moved in common taken out.`;
  const measured = compared.evMap.filter((ev) => !Number.isNaN(ev));
  const most = measured.reduce((a, b) => Math.max(a, b), 0);
  const least = measured.reduce((a, b) => Math.min(a, b), 0);
  return `Against the rest, a place gained up to ${stops(most, 2)} and another lost up to ${stops(-least, 2)}.`;
}
