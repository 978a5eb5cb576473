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

/** What can be asked: finer than a hundredth of a stop no frame tells, and 10 stops are no light to speak of. */
const LIMITS = {
  stops: { least: 0.01, most: 10 },
  percent: { least: 0.1, most: 99 },
  deltaUv: { least: 0.0005, most: 0.1 },
};

/** What was typed for a limit of evenness; `null` for what is none, so also a figure in the other measure's unit. */
export function parseLimit(text: string, measure: Measure): number | null {
  if (measure === 'range') return within(LIMITS.stops, figureIn(text, /^(stops?|ev)?$/i));
  const percent = within(LIMITS.percent, figureIn(text, /^%?$/));
  return percent === null ? null : percent / 100;
}

/** What was typed for a limit of colour, in u′v′ or in mired near daylight; `null` for what is none. */
export function parseColourLimit(text: string): number | null {
  const mired = figureIn(text, /^(mired|mk⁻¹)$/i);
  const deltaUv =
    mired === null
      ? figureIn(text, /^([Δd]?u['′]v['′])?$/i)
      : Number((mired * DELTA_UV_PER_MIRED).toFixed(6));
  return within(LIMITS.deltaUv, deltaUv);
}

/** The figure typed before a unit that fits, with a point or a comma; `null` for anything else. */
function figureIn(text: string, unit: RegExp): number | null {
  const match = /^(\d+(?:[.,]\d*)?|[.,]\d+)\s*(\D*)$/.exec(text.trim());
  if (match === null || !unit.test(match[2]!)) return null;
  return Number(match[1]!.replace(',', '.'));
}

function within({ least, most }: { least: number; most: number }, figure: number | null): number | null {
  return figure !== null && figure >= least && figure <= most ? figure : null;
}

/** What is said of a limit that was not understood: what was typed, what could be, and what stays. */
export function limitSlipWords(typed: string, tolerance: Pick<Tolerance, 'measure' | 'limit'>): string {
  const isRange = tolerance.measure === 'range';
  const { least, most } = isRange ? LIMITS.stops : LIMITS.percent;
  const kept = limitFigure(tolerance);
  const unit = isRange ? (Number(kept) > 1 ? 'stops' : 'stop') : '%';
  return `“${typed}” is no limit from ${least} to ${most}\u00a0${isRange ? 'stops' : '%'}: ${kept}\u00a0${unit} stays.`;
}

/** As {@link limitSlipWords}, for a limit of colour. */
export function colourSlipWords(typed: string, kept: number): string {
  const { least, most } = LIMITS.deltaUv;
  return `“${typed}” is no limit from ${least} to ${most} Δu′v′, nor one in mired: ${colourFigure(kept)} Δu′v′ stays.`;
}

/** "0.0047", as finely as one types it. */
export function colourFigure(deltaUv: number): string {
  return trimmed(deltaUv, 5);
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
