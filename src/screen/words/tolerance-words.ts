import type { Tolerance } from '../../engine/tolerance.ts';
import { decimals } from './figures.ts';

export type Measure = Tolerance['measure'];

/** The end of "a limit of my own: 0.3 …"; what stands before it is {@link limitFigure}. */
export const MEASURE_WORDS: Record<Measure, string> = {
  range: 'stop across the frame',
  'from-centre': '% from the centre, at most',
  'nine-point-min-max': '% of the brightest of nine points, at least',
  'min-over-mean': '% of the mean, at least',
};

/** What a limit of one's own starts from under each measure: near the default's third of a stop. */
const FIRST_LIMIT: Record<Measure, number> = {
  range: 0.3,
  'from-centre': 0.2,
  'nine-point-min-max': 0.8,
  'min-over-mean': 0.8,
};

const OWN_SOURCE = 'Your own limit, no published source.';

export function isOwnTolerance({ source }: Tolerance): boolean {
  return source === OWN_SOURCE;
}

/** A tolerance of one's own, begun from the one in force; a new measure starts from a limit that fits it. */
export function ownTolerance(before: Tolerance, change: Partial<Tolerance> = {}): Tolerance {
  const measure = change.measure ?? before.measure;
  const limit = change.limit ?? (measure === before.measure ? before.limit : FIRST_LIMIT[measure]);
  const own = { ...before, ...change, measure, limit, source: OWN_SOURCE };
  return { ...own, name: `${limitFigure(own)} ${MEASURE_WORDS[measure]}, your own limit` };
}

/** "0.3" stops, or "10" percent, as finely as one types it. */
export function limitFigure({ measure, limit }: Pick<Tolerance, 'measure' | 'limit'>): string {
  return measure === 'range' ? trimmed(limit, 3) : trimmed(limit * 100, 2);
}

/** What was typed for a limit; `null` for what is none: a figure above 0, in percent below 100. */
export function parseLimit(text: string, measure: Measure): number | null {
  const figure = parseFigure(text);
  if (figure === null || measure === 'range') return figure;
  return figure < 100 ? figure / 100 : null;
}

/** A figure above 0, with a point or a comma, and a % or unit behind it at will; `null` for anything else. */
export function parseFigure(text: string): number | null {
  const match = /^\s*(\d*[.,]?\d+)\s*(%|stops?|Δu′v′)?\s*$/.exec(text);
  const figure = match === null ? 0 : Number(match[1]!.replace(',', '.'));
  return figure > 0 ? figure : null;
}

/** Ten mired near daylight are 0.0047 Δu′v′, as for the limits that come with the tool. */
const DELTA_UV_PER_MIRED = 0.00047;

/** "0.0047 Δu′v′ (10 mired near daylight)". */
export function colourLimitWords(deltaUv: number): string {
  return `Δu′v′ (${decimals(deltaUv / DELTA_UV_PER_MIRED, 0)}\u00a0mired near daylight)`;
}

/** At most so many decimals, without zeros at the end. */
export function trimmed(value: number, digits: number): string {
  return String(Number(value.toFixed(digits)));
}
