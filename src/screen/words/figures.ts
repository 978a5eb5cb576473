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

/** "0.6 stop", "1.2 stops": tenths, as flash meters read; plural above one. */
export function stops(ev: number, digits = 1): string {
  return `${decimals(ev, digits)} ${Math.abs(ev) > 1 ? 'stops' : 'stop'}`;
}

/** A ± in stops: two decimals, since a good one lies below a tenth. */
export function plusMinusStops(ev: number): string {
  return ev < 0.005 ? '± less than 0.01 stop' : `± ${stops(ev, 2)}`;
}

/** A share of 0 to 1 as a whole percentage; never 0 or 100 unless it is. */
export function percent(share: number): string {
  const rounded = Math.round(share * 100);
  if (rounded === 0 && share > 0) return 'under 1 %';
  if (rounded === 100 && share < 1) return 'over 99 %';
  return `${rounded} %`;
}

/** A Δu′v′ or Duv, four decimals. */
export function chromaticity(value: number): string {
  return decimals(value, 4);
}
