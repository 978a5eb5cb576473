import type { Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { type Take, takeNumber } from '../../takes/take.ts';
import { percent, stops } from './figures.ts';
import { exposureWords } from './record-words.ts';
import { takeName } from './take-words.ts';
import { colourFigure } from './tolerance-words.ts';

/** The plots of a report that are saved as files, in the order of the page. */
export const PLOT_FILE_WORDS = {
  light: 'the map of light',
  tint: 'the map of tint',
  sections: 'the cross-sections',
  plan: 'the plan of the set',
  cast: 'the cast',
  takes: 'the line of takes',
  difference: 'what changed in light since the take before',
  'tint-difference': 'what changed in tint since the take before',
  response: 'the camera’s response',
} as const;
export type PlotFile = keyof typeof PLOT_FILE_WORDS;

export const PLOT_TITLES: Record<PlotFile, string> = {
  light: 'Light across the frame',
  tint: 'Tint across the frame',
  sections: 'Cross-sections of the light',
  plan: 'The set',
  cast: 'Cast',
  takes: 'Takes',
  difference: 'What changed in light',
  'tint-difference': 'What changed in tint',
  response: 'The camera’s response',
};

/** "Take 3, tumblers.jpg; grid cloth; 2026-03-01 10:20:30; 1/125 s, f/8, ISO 100". */
export function takeHeading(take: Take): string {
  const { exposure } = take.reading.frame;
  const parts = [
    `Take ${takeNumber(take)}, ${takeName(take)}`,
    take.note === '' ? null : take.note,
    exposure?.takenAt?.replace('T', ' ') ?? null,
    exposureWords(exposure),
  ];
  return parts.filter((part) => part !== null).join('; ');
}

export function sectionNames({ falloff: { brightestAt } }: Reading): readonly [across: string, down: string] {
  return [`Left to right, ${percent(brightestAt.y)} down`, `Top to bottom, ${percent(brightestAt.x)} across`];
}

export function sectionsLegend({ falloff }: Reading): string {
  const hottest = falloff.isLowerBound ? 'the hottest spot that is not clipped' : 'the hottest spot';
  return `Both run through ${hottest}. Figures are stops below it; dotted: your limit.`;
}

export function sectionsSummary({ falloff }: Reading): string {
  return `The light falls by ${stops(falloff.spreadEv)} over the whole of what was read.`;
}

export function castLegend({ castDeltaUv }: Tolerance): string {
  return `Δu′ to the right, Δv′ up, at one scale; the circle about white is your limit, ${colourFigure(castDeltaUv)} Δu′v′; the circle about the arrow’s tip is its ±; dots are the cells. Solid line: black bodies; broken line: daylight.`;
}

export const TAKES_LEGEND = 'The grey band is within your limit. Bars are the ±. Hollow: what was foretold.';
export const RESPONSE_LEGEND =
  'Thick where the frames show it, thin where it is drawn on beyond them. Short dashes: the curve of sRGB.';

/** Why a plot was not saved, and what to do instead. */
export function plotNotSavedWords(kind: 'svg' | 'png', error: unknown): string {
  const why = error instanceof Error ? error.message : String(error);
  const instead = kind === 'png' ? 'Save it as SVG, or try again.' : 'Try again.';
  return `The plot could not be saved as ${kind.toUpperCase()} (${why}). ${instead}`;
}
