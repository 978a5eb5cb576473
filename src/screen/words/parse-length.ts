import type { LengthUnit } from './length-words.ts';

const MM_PER: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  ft: 304.8,
};

/** How people write a unit of length, beside its sign. */
const UNIT_SIGNS: Readonly<Record<string, string>> = {
  millimetre: 'mm',
  millimeter: 'mm',
  centimetre: 'cm',
  centimeter: 'cm',
  metre: 'm',
  meter: 'm',
  inch: 'in',
  inche: 'in', // without the s of "inches"
  foot: 'ft',
  feet: 'ft',
  '"': 'in',
  '”': 'in',
  '″': 'in',
  "'": 'ft',
  '’': 'ft',
  '′': 'ft',
};

/** No set is larger: what is typed beyond it is a slip. */
const LONGEST_MM = 100_000;

const FIGURE = String.raw`(\d+(?:[.,]\d*)?|[.,]\d+)`;
const SIGN = `([a-z]+|["'”″’′])`;
const ONE_LENGTH = new RegExp(`^${FIGURE}\\s*${SIGN}?$`, 'i');
const FEET_AND_INCHES = new RegExp(`^${FIGURE}\\s*${SIGN}\\s*${FIGURE}\\s*${SIGN}$`, 'i');

/**
 * What was typed for a length, in mm; `null` for nothing or what is no length of a set. A unit may be typed too.
 * `least` is `0` for room that there may be none of.
 */
export function parseLength(text: string, unit: LengthUnit, least: 0 | 'some' = 'some'): number | null {
  const typed = text.trim();
  const mm = oneLength(typed, unit) ?? feetAndInches(typed);
  if (mm === null || mm > LONGEST_MM) return null;
  return mm > 0 || least === 0 ? mm : null;
}

/** What is said of a length that was not understood: what was typed, and what stays. */
export function slipWords(typed: string, kept: string): string {
  return `“${typed}” is no length: ${kept} stays. A figure is enough, or one with cm, m, in or ft.`;
}

function oneLength(typed: string, unit: LengthUnit): number | null {
  const match = ONE_LENGTH.exec(typed);
  if (match === null) return null;
  const sign = match[2] === undefined ? unit : unitSign(match[2]);
  return sign === null ? null : figure(match[1]!) * MM_PER[sign]!;
}

function feetAndInches(typed: string): number | null {
  const match = FEET_AND_INCHES.exec(typed);
  if (match === null || unitSign(match[2]!) !== 'ft' || unitSign(match[4]!) !== 'in') return null;
  return figure(match[1]!) * MM_PER.ft! + figure(match[3]!) * MM_PER.in!;
}

function unitSign(written: string): string | null {
  const word = written.toLowerCase();
  const single = word.length > 2 ? word.replace(/s$/, '') : word;
  const sign = UNIT_SIGNS[single] ?? single;
  return sign in MM_PER ? sign : null;
}

function figure(text: string): number {
  return Number(text.replace(',', '.'));
}
