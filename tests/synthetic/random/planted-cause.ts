/** Kinds of finding that a set can be given on purpose, named as the public contract names them. */
export const PLANTED_KINDS = [
  'off-centre',
  'too-close',
  'aimed-off',
  'unequal-lamps',
  'unequal-colour',
  'hot-spot',
  'stray-light',
  'tinted-all-over',
  'tinted-on-one-side',
  'rim-in-view',
  'lens-falloff',
  'lens-colour',
  'bands',
  'creases',
  'weave',
  'specks',
] as const;

export type PlantedKind = (typeof PLANTED_KINDS)[number];

/** A place on the background, in frame widths right of and below the frame's middle. */
export interface Place {
  readonly rightFrameWidths: number;
  readonly downFrameWidths: number;
}

/** What was planted, in the terms that a reading of it would use; angles clockwise from the right. */
export type CauseFacts =
  | ({ readonly kind: 'off-centre' } & Place) // of the light's foot; of two lights, the middle between them
  | { readonly kind: 'too-close'; readonly distanceFrameWidths: number }
  | ({ readonly kind: 'aimed-off'; readonly lamp: number } & Place) // of the spot aimed at
  | { readonly kind: 'unequal-lamps'; readonly weaker: 0 | 1; readonly stops: number }
  | { readonly kind: 'unequal-colour'; readonly warmer: 0 | 1; readonly mired: number; readonly duv: number }
  | {
      readonly kind: 'hot-spot';
      readonly of: 'sheet';
      readonly forwardShare: number;
      readonly lobeDeg: number;
    }
  | { readonly kind: 'hot-spot'; readonly of: 'panel'; readonly hotter: 'middle' | 'sides' }
  | {
      readonly kind: 'stray-light';
      /** Of the light at the frame's middle, before any tint of the background. */
      readonly spillShare: number;
      /** How much warmer it is than the light. */
      readonly mired: number;
      /** Change over a frame width, and which way it grows. */
      readonly slopeEv: number;
      readonly towardDeg: number;
    }
  | { readonly kind: 'tinted-all-over'; readonly mired: number; readonly duv: number }
  | {
      readonly kind: 'tinted-on-one-side';
      readonly mired: number;
      readonly duv: number;
      readonly towardDeg: number;
    }
  | {
      readonly kind: 'rim-in-view';
      readonly side: 'left' | 'right' | 'top' | 'bottom';
      /** Share of the frame's width or height that it covers. */
      readonly reach: number;
      readonly level: number;
    }
  | { readonly kind: 'lens-falloff'; readonly cornerEv: number; readonly mechanicalEv: number }
  | { readonly kind: 'lens-colour'; readonly mired: number; readonly duv: number } // in the corner
  | {
      readonly kind: 'bands';
      readonly periodLines: number;
      readonly ofLines: number;
      readonly modulation: number;
      readonly run: 'across' | 'upright';
    }
  | { readonly kind: 'creases'; readonly count: number; readonly deepestEv: number; readonly widthMm: number }
  | { readonly kind: 'weave'; readonly pitchMm: number; readonly rangeEv: number }
  | {
      readonly kind: 'specks';
      readonly count: number;
      readonly deepestEv: number;
      readonly radiusMm: number;
    };

export type PlantedCause = CauseFacts & {
  /** How far the spread falls when this cause alone is taken out; `null` for what is finer than a cell. */
  readonly shareEv: number | null;
  /** Over 0 is warmer: a tint, spill against the lights, one light against the other; `null` without colour. */
  readonly mired: number | null;
};

/** Finer than a cell, so without a share in the spread. */
export const FINE_KINDS: ReadonlySet<PlantedKind> = new Set(['creases', 'weave', 'specks']);

/**
 * One scale for causes of brightness and of colour: 0.1 EV counts as 10 mired. Spill counts by the tint that it
 * leaves in the light, not by its own colour.
 */
export function strength(cause: PlantedCause): number {
  const tint = cause.kind === 'stray-light' ? cause.spillShare * cause.mired : (cause.mired ?? 0);
  return Math.max(cause.shareEv ?? 0, Math.abs(tint) / 100);
}
