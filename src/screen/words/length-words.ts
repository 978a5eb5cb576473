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
