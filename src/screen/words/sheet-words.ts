import type { SheetColumn, SheetRow } from '../../plots/sheet-rows.ts';
import { LIGHT_UNKNOWN_WORDS } from './compare-words.ts';
import { chromaticity, decimals, plusMinus } from './figures.ts';

/** What each column is called, and its unit. */
export const SHEET_COLUMN_WORDS: Record<SheetColumn, readonly [name: string, unit: string]> = {
  take: ['Sheet or light', ''],
  spread: ['Spread', 'stops'],
  tint: ['Tint', 'Δu′v′'],
  'hot-spot': ['Hot spot', 'stops'],
  lost: ['Light lost', 'stops'],
};

export const SHEET_LEGEND =
  'Hot spot: the hottest place over the ring round it, from an eighth to a quarter of the frame’s longer side away: a sheet that hides its light has hardly any. Light lost: from the level, and from shutter, aperture and ISO as the files say them; of flash the shutter’s time does not count, and its power has to have been left.';

/** A figure with its ±; a dash where it is not known. */
export function sheetFigure({ spread, tint, hotSpot, lostEv }: SheetRow, column: SheetColumn): string {
  switch (column) {
    case 'take':
      return '';
    case 'spread':
      return spread.isLowerBound
        ? `at least ${decimals(spread.spreadEv, 2)}`
        : `${decimals(spread.spreadEv, 2)}${plusMinus(spread.plusMinusEv, 2)}`;
    case 'tint':
      return `${chromaticity(tint.spreadDeltaUv)}${plusMinus(tint.plusMinusDeltaUv, 4)}`;
    case 'hot-spot':
      return hotSpot === null ? '–' : `${decimals(hotSpot.ev, 2)}${plusMinus(hotSpot.plusMinusEv, 2)}`;
    case 'lost':
      return typeof lostEv === 'number' ? decimals(lostEv, 1) : '–';
  }
}

/** Why figures are dashes, each reason once; `null` where there are none. */
export function dashWords(rows: readonly SheetRow[]): string | null {
  const lost = rows.flatMap(({ lostEv }) =>
    typeof lostEv === 'number' ? [] : [`Light lost is ${LIGHT_UNKNOWN_WORDS[lostEv]}.`],
  );
  const spot = rows.some(({ hotSpot }) => hotSpot === null)
    ? [
        'A hot spot is not told where it is clipped, or lies so near the edge that too little is seen round it.',
      ]
    : [];
  const all = [...new Set([...lost, ...spot])];
  return all.length === 0 ? null : all.join(' ');
}
