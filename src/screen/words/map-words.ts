import type { Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import type { MapPlot } from '../../plots/map-plot.ts';
import { shareInside } from '../../plots/share-inside.ts';
import type { SpotReading } from '../../plots/spot-reading.ts';
import { chromaticity, decimals, percent, plusMinus, stops } from './figures.ts';
import { isNotBlank } from './hidden-light.ts';
import { placeWords } from './place-words.ts';
import { extentWords } from './region-words.ts';
import { colourFigure } from './tolerance-words.ts';

export type MapMode = 'light' | 'tint';

/** What the lines, marks and strengths of a map mean; `hasSections`: whether its sections are drawn along it. */
export function mapLegend(
  mode: MapMode,
  plot: MapPlot,
  reading: Reading,
  tolerance: Tolerance,
  hasSections = true,
): string {
  const hottest = reading.falloff.isLowerBound ? 'what clips' : 'the hottest spot';
  const lines =
    mode === 'light'
      ? `Lines every ${stops(plot.contours.step)} below ${hottest} (the small cross)`
      : `Lines every ${decimals(plot.contours.step, 3)} Δu′v′ from the mean`;
  const isDrawn = plot.contours.lines.some((line) => line.isTolerance);
  const limit =
    mode === 'light' ? inSentence(tolerance.name) : `${colourFigure(tolerance.tintDeltaUv)} Δu′v′`;
  const bold = isDrawn
    ? `the bold line is your limit, ${limit}${mode === 'light' && hasSections ? ' (dotted in the sections)' : ''}`
    : `your limit, ${limit}, is reached nowhere`;
  const hatching = plot.hatchedPath === '' ? '' : ' Hatched: clipped or not measured.';
  const drawn = `${mode === 'light' ? 'Greys' : 'Tints'} are drawn ${strength(plot.picture.strengthened)}.${hatching}`;
  const sections = hasSections ? ' The curves below and beside the map are of the light.' : '';
  if (mode === 'tint') return `${lines}; ${bold}. ${drawn} Darker means more tint.${sections}`;
  const share = `${percent(shareInside(reading, tolerance))} of ${extentWords(reading.region)} lies within it`;
  const crop = plot.cropPath === '' ? '' : ` ${cropWords(reading)}`;
  const ramp = plot.gradientPath === '' ? '' : ' The dotted arrow runs towards the brighter side.';
  return `${lines}; ${bold}; ${share}.${crop}${ramp} ${drawn}`;
}

/** A yardstick's name after a comma: "nine points within 75 % …"; what begins with a figure stays as it is. */
function inSentence(name: string): string {
  return /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/**
 * What is clipped or stands before the light only looks even, and what is even may still have a cast: such a crop
 * promises no more than it holds.
 */
function cropWords(reading: Reading): string {
  const { verdict, within, region } = reading;
  const { crop } = within;
  if (isNotBlank(reading))
    return 'The part inside the dashed line only looks even, with something standing in the frame.';
  const isWhole =
    crop !== null &&
    (['left', 'top', 'right', 'bottom'] as const).every((edge) => crop[edge] === region[edge]);
  if (verdict.exposed === 'yes' && verdict.neutral === 'yes') {
    return isWhole ? 'The whole of it passes.' : 'Frame inside the dashed line and you are done.';
  }
  if (verdict.exposed === 'yes')
    return isWhole ? 'The whole of it is even enough.' : 'Inside the dashed line it is even enough.';
  return 'The part inside the dashed line may only look even: expose for it and read it again.';
}

function strength(factor: number): string {
  if (factor === 1) return 'as strong as they are';
  if (factor > 1) return `${decimals(factor, 0)} times stronger than they are`;
  return `${decimals(factor, 2)} times as strong as they are`;
}

/** The map in one sentence for those who do not see it. */
export function mapSummary(mode: MapMode, { falloff, tint, region }: Reading): string {
  if (mode === 'tint')
    return `The colour differs by up to ${chromaticity(tint.spreadDeltaUv)} Δu′v′ from the mean.`;
  const darkest = placeWords(falloff.darkestAt, region);
  if (falloff.isLowerBound)
    return `The light falls by at least ${stops(falloff.spreadEv)} from somewhere in the clipped part to ${darkest}.`;
  return `The light falls by ${stops(falloff.spreadEv)} from ${placeWords(falloff.brightestAt, region)} to ${darkest}.`;
}

/** What clipping leaves unknown at a spot: its own light, or that of the hottest it is told against. */
export interface SpotClipping {
  readonly isClipped: boolean;
  readonly isLowerBound: boolean;
}

/** The figures at one spot, in a line. */
export function spotWords(spot: SpotReading, { isClipped, isLowerBound }: SpotClipping): string {
  const where = `${percent(spot.at.x)} across, ${percent(spot.at.y)} down`;
  if (spot.ev === null) return `${where}: nothing was measured here`;
  if (isClipped) return `${where}: clipped, hotter than this frame can show`;
  const parts = [isLowerBound ? downFromClipped(spot.ev) : downFromHottest(spot.ev, spot.plusMinusEv)];
  if (spot.mired !== null) parts.push(againstMean(spot.mired, 0, 'mired', 'warmer', 'cooler'));
  if (spot.duv !== null) parts.push(againstMean(spot.duv, 4, 'Duv', 'greener', 'more magenta'));
  return `${where}: ${parts.join(', ')}`;
}

function downFromHottest(ev: number, plusMinusEv: number): string {
  const down = ev > -0.005 ? 'as hot as the hottest' : `${stops(-ev, 2)} down`;
  return `${down}${plusMinus(plusMinusEv, 2)}`;
}

function downFromClipped(ev: number): string {
  return ev > -0.005 ? 'just below what clips' : `at least ${stops(-ev, 2)} down`;
}

/** As long as the figures at a spot get, figures being of one width. */
export const LONGEST_SPOT_WORDS =
  '00\u00a0% across, 00\u00a0% down: 0.00\u00a0stops down ±\u00a0under\u00a00.00, 000\u00a0mired warmer, 0.0000\u00a0Duv more magenta';

/** "9 mired cooler", or "0 mired" where it rounds to nothing. */
function againstMean(value: number, digits: number, unit: string, more: string, less: string): string {
  const figure = decimals(Math.abs(value), digits);
  if (Number(figure) === 0) return `0\u00a0${unit}`;
  return `${figure}\u00a0${unit} ${value > 0 ? more : less}`;
}
