import { trimmed } from './tolerance-words.ts';

const NUMBER = String.raw`(\d+(?:[.,]\d*)?|[.,]\d+)`;
const STOPS = new RegExp(`^(?:${NUMBER}(?:\\s+(?=\\d+/))?)?(?:(\\d+)/(\\d+))?\\s*(?:stops?|ev)?$`, 'i');

/** What can be typed for a figure. */
export interface Bounds {
  readonly least: number;
  readonly most: number;
}

/** Stops as people write them: "1", "0.3", "0,7", "1/3", "1 2/3 stops"; `null` for what is none within bounds. */
export function parseStops(text: string, { least, most }: Bounds): number | null {
  const trimmedText = text.trim();
  const match = STOPS.exec(trimmedText);
  if (match === null || !/\d/.test(trimmedText)) return null;
  const [, whole, parts, of] = match;
  const stops =
    Number((whole ?? '0').replace(',', '.')) + (parts === undefined ? 0 : Number(parts) / Number(of));
  return stops >= least && stops <= most ? stops : null;
}

/** A code value, 0 to 255, also as a share of it in per cent; `null` for what is none within bounds. */
export function parseCode(text: string, { least, most }: Bounds): number | null {
  const match = new RegExp(`^${NUMBER}\\s*(%?)$`).exec(text.trim());
  if (match === null) return null;
  const code = Number(match[1]!.replace(',', '.')) * (match[2] === '%' ? 2.55 : 1);
  return code >= least && code <= most ? code : null;
}

/** Stops as one types them: thirds as fractions, all else in two decimals. */
export function stopsFigure(stops: number): string {
  const thirds = stops * 3;
  const isThird = Math.abs(thirds - Math.round(thirds)) < 1e-6 && Math.abs(stops - Math.round(stops)) > 1e-6;
  if (!isThird) return trimmed(stops, 2);
  const whole = Math.floor(stops);
  return `${whole > 0 ? `${whole} ` : ''}${Math.round(thirds - 3 * whole)}/3`;
}

/** What is said of a figure that was not understood: what was typed, what could be, and what stays. */
export function figureSlipWords(typed: string, { least, most }: Bounds, unit: string, kept: string): string {
  return `“${typed}” is no figure from ${trimmed(least, 2)} to ${trimmed(most, 2)}\u00a0${unit}: ${kept} stays.`;
}
