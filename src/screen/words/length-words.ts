export type LengthUnit = 'cm' | 'in';

export const MM_PER: Record<LengthUnit, number> = { cm: 10, in: 25.4 };

/** "42 cm", "16.5 in": a length in mm as read on the set, to the tenth. */
export function lengthWords(mm: number, unit: LengthUnit): string {
  return `${lengthFigure(mm, unit)} ${unit}`;
}

/** The bare figure of {@link lengthWords}. */
export function lengthFigure(mm: number, unit: LengthUnit): string {
  const value = mm / MM_PER[unit];
  return String(Math.round(value * 10) / 10);
}

/** What hands at a stand can set: to the centimetre. */
const HAND_STEP_MM = 10;

/**
 * As {@link lengthWords}, of a length that hands are to set: whole centimetres, tenths of an inch; it is read from two
 * metres, so that no line breaks before its unit.
 */
export function handLengthWords(mm: number, unit: LengthUnit): string {
  const set = unit === 'cm' ? HAND_STEP_MM * Math.round(mm / HAND_STEP_MM) : mm;
  return lengthWords(set, unit).replace(' ', '\u00a0');
}

/** Whether hands can set a length at all: what rounds to nothing is none. */
export function isHandLength(mm: number): boolean {
  return Math.abs(mm) >= HAND_STEP_MM / 2;
}
