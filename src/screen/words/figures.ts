/** Between a figure and its unit no line may break. */
const NO_BREAK = '\u00a0';

/** A figure with a true minus sign and so many decimals; "0.0" never carries a sign. */
export function decimals(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** A figure that always says its direction: "+3", "−3", "0". */
export function signed(value: number, digits: number): string {
  const text = decimals(value, digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** "0.6 stop", "1.2 stops": tenths, as flash meters read; plural where the figure as printed is above one. */
export function stops(ev: number, digits = 1): string {
  const isPlural = Number(Math.abs(ev).toFixed(digits)) > 1;
  return `${decimals(ev, digits)}${NO_BREAK}${isPlural ? 'stops' : 'stop'}`;
}

/** A ± in stops: two decimals, since a good one lies below a tenth. */
export function plusMinusStops(ev: number): string {
  return `±${NO_BREAK}${ev < 0.005 ? `under${NO_BREAK}${stops(0.01, 2)}` : stops(ev, 2)}`;
}

/** A ± as a share of 0 to 1: tenths of a percent, since a good one lies below one. */
export function plusMinusPercent(share: number): string {
  return `±${NO_BREAK}${percent(share, 1)}`;
}

/** A share of 0 to 1 as a percentage, whole if not told otherwise; never 0 or 100 unless it is. */
export function percent(share: number, digits = 0): string {
  const figure = decimals(share * 100, digits);
  const least = 10 ** -digits;
  if (Number(figure) === 0 && share > 0) return `under${NO_BREAK}${decimals(least, digits)}${NO_BREAK}%`;
  if (Number(figure) === 100 && share < 1)
    return `over${NO_BREAK}${decimals(100 - least, digits)}${NO_BREAK}%`;
  return `${figure}${NO_BREAK}%`;
}

/** " ± 1.2" to follow a figure of so many decimals; nothing where no ± is known. */
export function plusMinus(value: number | null, digits: number): string {
  if (value === null) return '';
  const least = 10 ** -digits;
  return ` ±${NO_BREAK}${value < least / 2 ? `under${NO_BREAK}${decimals(least, digits)}` : decimals(value, digits)}`;
}

/** A Δu′v′ or Duv, four decimals. */
export function chromaticity(value: number): string {
  return decimals(value, 4);
}
