import type { LinearFrame } from '../frame/linear-frame.ts';
import type { FrameRectangle } from '../reading.ts';
import { type LineProfile, type LineProfiles, lineProfiles } from './line-profiles.ts';
import { type PatchSpectrum, patchSpectrum } from './patch-spectrum.ts';

/** What a frame shows between its cells, too fine for them. Structured-cloneable, under 1 MB. */
export interface FineStructure {
  readonly profiles: LineProfiles;
  /** `null` where no patch fits, or every one clips. */
  readonly spectrum: PatchSpectrum | null;
}

/** Reads what is finer than cells from the region's pixels: a second, lighter pass. */
export function fineStructure(frame: LinearFrame, region: FrameRectangle): FineStructure {
  return { profiles: lineProfiles(frame, region), spectrum: patchSpectrum(frame, region) };
}

/** Lines averaged over frames of one set-up, whose bands lie elsewhere in each; the texture is that of the first. */
export function averageFineStructure(all: readonly (FineStructure | null)[]): FineStructure | null {
  const first = all[0] ?? null;
  const present = all.filter((fine) => fine !== null);
  if (first === null || present.length < all.length) return first;
  const mean = (one: (fine: FineStructure) => LineProfile): LineProfile => {
    const lights = present.map((fine) => one(fine).light);
    const sum = (at: number) => lights.reduce((total, light) => total + light[at]!, 0);
    return { lines: one(first).lines, light: one(first).light.map((_, at) => sum(at) / lights.length) };
  };
  return {
    ...first,
    profiles: { rows: mean((fine) => fine.profiles.rows), columns: mean((fine) => fine.profiles.columns) },
  };
}
