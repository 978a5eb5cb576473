import { benchAround } from './bench-around.ts';

/** Address of the list of samples that the bench around a part names; `null` where it names none. */
export function samplesAddress(part: Node): string | null {
  const named = benchAround(part)?.getAttribute('samples') ?? null;
  return named === null ? null : new URL(named, document.baseURI).href;
}
