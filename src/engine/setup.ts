/** How the light was arranged at the first take of a set-up; lengths in mm, `null` where unknown. */
export interface Setup {
  readonly arrangement: 'behind-sheet' | 'bounced' | 'two-lamps' | 'panel';
  readonly light: 'flash' | 'continuous' | null;
  /** Width of background that the frame shows. */
  readonly frameWidthMm: number | null;
  /** Per lamp, to sheet or wall along the normal; empty: unknown. */
  readonly lampDistanceMm: readonly (number | null)[];
  readonly lampWidthMm: number | null;
  /** Lens to background. */
  readonly cameraDistanceMm: number | null;
  /** How far a lamp can go from the frame's centre, and at most from sheet or wall. */
  readonly room: {
    readonly leftMm: number | null;
    readonly rightMm: number | null;
    readonly upMm: number | null;
    readonly downMm: number | null;
    readonly reachMm: number | null;
  };
}

/** Nothing known but that a light stands behind a sheet. */
export const UNKNOWN_SETUP: Setup = {
  arrangement: 'behind-sheet',
  light: null,
  frameWidthMm: null,
  lampDistanceMm: [],
  lampWidthMm: null,
  cameraDistanceMm: null,
  room: { leftMm: null, rightMm: null, upMm: null, downMm: null, reachMm: null },
};
