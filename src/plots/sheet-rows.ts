import { type HotSpot, hotSpot } from '../engine/compare/hot-spot.ts';
import { type ExposedTake, type LightUnknown, lightOver } from '../engine/compare/light-reaching.ts';
import type { Falloff, Tint } from '../engine/reading.ts';

/** One sheet or light in a table to choose by. */
export interface SheetRow {
  /** Place of the take it was read from. */
  readonly index: number;
  readonly spread: Pick<Falloff, 'spreadEv' | 'plusMinusEv' | 'isLowerBound'>;
  readonly tint: Pick<Tint, 'spreadDeltaUv' | 'plusMinusDeltaUv'>;
  readonly hotSpot: HotSpot | null;
  /** Stops lost against the take it is held against, or why that is not known. */
  readonly lostEv: number | LightUnknown;
}

export type SheetColumn = 'take' | 'spread' | 'tint' | 'hot-spot' | 'lost';

/** The takes as sheets or lights, in their order; light lost is told against one of them, or against the one with most. */
export function sheetRows(takes: readonly ExposedTake[], againstIndex: number | null): SheetRow[] {
  const against = againstIndex === null ? brightest(takes) : takes[againstIndex];
  return takes.map((take, index) => {
    const { falloff, tint } = take.reading;
    const over = against === undefined ? 'no-exposure' : lightOver(take, against);
    return {
      index,
      spread: falloff,
      tint,
      hotSpot: hotSpot(take.reading),
      lostEv: typeof over === 'number' ? 0 - over : over,
    };
  });
}

/** The take with most light, of those that it is known of; the first where it is known of none. */
function brightest(takes: readonly ExposedTake[]): ExposedTake | undefined {
  const known = takes.find((take) => typeof lightOver(take, take) === 'number');
  if (known === undefined) return takes[0];
  return takes.reduce((most, take) => {
    const over = lightOver(take, most);
    return typeof over === 'number' && over > 0 ? take : most;
  }, known);
}

/** The rows by one column's figures; what is not known comes last, whichever way round. */
export function sorted(rows: readonly SheetRow[], by: SheetColumn, isDown: boolean): SheetRow[] {
  const figure = (row: SheetRow): number | null => {
    switch (by) {
      case 'take':
        return row.index;
      case 'spread':
        return row.spread.spreadEv;
      case 'tint':
        return row.tint.spreadDeltaUv;
      case 'hot-spot':
        return row.hotSpot?.ev ?? null;
      case 'lost':
        return typeof row.lostEv === 'number' ? row.lostEv : null;
    }
  };
  return [...rows].sort((a, b) => {
    const [one, other] = [figure(a), figure(b)];
    if (one === null || other === null) return Number(one === null) - Number(other === null);
    return isDown ? other - one : one - other;
  });
}
