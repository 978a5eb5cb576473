export type LengthUnit = 'cm' | 'in';

const MM_PER: Record<LengthUnit, number> = { cm: 10, in: 25.4 };

/** "42 cm", "16.5 in": a length in mm as read on the set, to the tenth. */
export function lengthWords(mm: number, unit: LengthUnit): string {
  return `${lengthFigure(mm, unit)} ${unit}`;
}

/** The bare figure of {@link lengthWords}. */
export function lengthFigure(mm: number, unit: LengthUnit): string {
  const value = mm / MM_PER[unit];
  return String(Math.round(value * 10) / 10);
}

const MM_PER_TYPED: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  ft: 304.8,
  "'": 304.8,
};

/** What was typed for a length, in mm; `null` for nothing or what is no length above 0. A unit may be typed too. */
export function parseLength(text: string, unit: LengthUnit): number | null {
  const match = /^\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m|in|inch|inches|ft|"|')?\s*$/i.exec(text);
  if (match === null) return null;
  const typed = match[2]?.toLowerCase();
  const mm =
    Number(match[1]!.replace(',', '.')) * (typed === undefined ? MM_PER[unit] : MM_PER_TYPED[typed]!);
  return mm > 0 ? mm : null;
}
