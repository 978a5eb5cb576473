import type { Falloff, Reading } from '../engine/reading.ts';

/** The maps of a reading without what surrounds them, NaN where nothing was measured. */
export interface ReadingMaps {
  readonly ev: Float64Array;
  readonly uPrime: Float64Array;
  readonly vPrime: Float64Array;
}

/** A reading without its maps. */
export interface ReadingFigures extends Omit<Reading, 'falloff' | 'tint'> {
  readonly falloff: Omit<Falloff, 'evMap'>;
  readonly tint: Omit<Reading['tint'], 'uPrimeMap' | 'vPrimeMap'>;
}

export function mapsOf({ falloff, tint }: Reading): ReadingMaps {
  return { ev: held(falloff.evMap), uPrime: held(tint.uPrimeMap), vPrime: held(tint.vPrimeMap) };
}

export function figuresOf(reading: Reading): ReadingFigures {
  const { evMap: _ev, ...falloff } = reading.falloff;
  const { uPrimeMap: _u, vPrimeMap: _v, ...tint } = reading.tint;
  return { ...reading, falloff, tint };
}

/**
 * The reading whose maps are held as so many bytes, and are lists of numbers only while somebody looks at them: those
 * of hundreds of takes, as lists, would be most of what a page holds.
 */
export function readingOf(figures: ReadingFigures, maps: ReadingMaps): Reading {
  const [ev, uPrime, vPrime] = [listed(maps.ev), listed(maps.uPrime), listed(maps.vPrime)];
  return {
    ...figures,
    falloff: {
      ...figures.falloff,
      get evMap() {
        return ev();
      },
    },
    tint: {
      ...figures.tint,
      get uPrimeMap() {
        return uPrime();
      },
      get vPrimeMap() {
        return vPrime();
      },
    },
  };
}

/** The reading as plain data, its maps lists. */
export const plainReading = (reading: Reading): Reading => ({
  ...reading,
  falloff: { ...reading.falloff },
  tint: { ...reading.tint },
});

const held = (map: readonly (number | null)[]) => Float64Array.from(map, (value) => value ?? Number.NaN);

/** The same list for as long as anybody holds it. */
function listed(map: Float64Array): () => readonly (number | null)[] {
  let last: WeakRef<(number | null)[]> | null = null;
  return () => {
    const known = last?.deref();
    if (known !== undefined) return known;
    const list = Array.from(map, (value) => (Number.isNaN(value) ? null : value));
    last = new WeakRef(list);
    return list;
  };
}
