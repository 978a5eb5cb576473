import type { Move } from './moves/move.ts';

/** A position across the upright frame: x right, y down, 0 to 1. */
export interface FramePoint {
  readonly x: number;
  readonly y: number;
}

/** A rectangle across the upright frame, 0 to 1. */
export interface FrameRectangle {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const WHOLE_FRAME: FrameRectangle = { left: 0, top: 0, right: 1, bottom: 1 };

/** How the frame was exposed, as its Exif says; each `null` where it does not. */
export interface Exposure {
  readonly seconds: number | null;
  readonly fNumber: number | null;
  readonly iso: number | null;
  readonly focalLengthMm: number | null;
  /** As written by the camera, in ISO 8601 without a zone: "2026-03-01T10:20:30". */
  readonly takenAt: string | null;
}

/** How linear the light of a frame really is. */
export type LightBasis = 'scene-linear' | 'response-recovered' | 'display-decoded';

export interface FrameFacts {
  readonly name: string;
  /** Hex digest of the file's bytes; `null` where the platform offers none (an insecure origin). */
  readonly sha256: string | null;
  /** Of the upright frame. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Exif orientation of the file, 1 to 8. */
  readonly orientation: number;
  readonly bitsPerSample: number;
  readonly light: LightBasis;
  readonly lightSays: string;
  readonly colourProfile: string;
  readonly exposure: Exposure | null;
  readonly averagedFrames: number;
}

export interface Falloff {
  readonly spreadEv: number;
  readonly plusMinusEv: number;
  readonly stdEv: number;
  readonly minOverMax: number;
  readonly minOverMean: number;
  readonly ninePointMinOverMax: number;
  readonly fromCentreMax: number;
  readonly steepestEvPerFrameWidth: number;
  readonly brightestAt: FramePoint;
  readonly darkestAt: FramePoint;
  readonly isLowerBound: boolean;
  /** Row-major from the top left; `null` where nothing was measured. */
  readonly evMap: readonly (number | null)[];
  /** Half-width of the 95 % interval of one cell of `evMap`, root mean square over the cells. */
  readonly cellPlusMinusEv: number;
}

export interface Tint {
  readonly spreadDeltaUv: number;
  readonly plusMinusDeltaUv: number;
  readonly deltaE00Max: number;
  readonly uPrimeMap: readonly (number | null)[];
  readonly vPrimeMap: readonly (number | null)[];
}

export interface Cast {
  readonly uPrime: number;
  readonly vPrime: number;
  readonly deltaUPrime: number;
  readonly deltaVPrime: number;
  readonly deltaUv: number;
  readonly labA: number;
  readonly labB: number;
  readonly deltaE00: number;
  /** `null` where the colour is too far from the Planckian locus for a colour temperature to mean anything. */
  readonly mired: number | null;
  readonly duv: number | null;
  readonly plusMinusDeltaUv: number;
  readonly plusMinusMired: number | null;
  readonly plusMinusDuv: number | null;
}

export interface Gradient {
  /** Steepest rise, towards the brighter side; `null` where `ev` is below its ±. */
  readonly angleDeg: number | null;
  readonly ev: number;
  readonly mired: number | null;
  readonly duv: number | null;
  readonly from: FramePoint;
  readonly to: FramePoint;
  readonly explains: number;
  readonly plusMinusDeg: number | null;
  readonly plusMinusEv: number;
  readonly plusMinusMired: number | null;
}

export interface TintGradient {
  /** Steepest change of colour, towards the warmer side; `null` where there is no change to speak of. */
  readonly angleDeg: number | null;
  readonly deltaUv: number;
  readonly mired: number | null;
  readonly duv: number | null;
}

export type FindingKind =
  | 'off-centre'
  | 'too-close'
  | 'aimed-off'
  | 'unequal-lamps'
  | 'unequal-colour'
  | 'hot-spot'
  | 'stray-light'
  | 'tinted-all-over'
  | 'tinted-on-one-side'
  | 'rim-in-view'
  | 'lens-falloff'
  | 'lens-colour'
  | 'bands'
  | 'creases'
  | 'weave'
  | 'specks'
  | 'clipped'
  | 'too-dark'
  | 'not-blank'
  | 'cast'
  | 'slope'
  | 'bright-middle'
  | 'cannot-tell';

export interface Finding {
  readonly kind: FindingKind;
  /** 0 to 1. */
  readonly confidence: number;
  /** The fall in spread when this cause alone is taken out; `null` where that means nothing. */
  readonly ev: number | null;
  readonly mired: number | null;
  readonly at: FramePoint | null;
  /** One sentence that a photographer would say. */
  readonly says: string;
  /** The lengths that it gives in whole centimetres, in mm and unrounded, in its order; `null` where it gives none. */
  readonly lengthsMm: readonly number[] | null;
}

export type Judgement = 'yes' | 'no' | 'too-close-to-say';

export interface Verdict {
  readonly even: Judgement;
  readonly neutral: Judgement;
  readonly exposed: Judgement;
}

/** The part of a Reading that is measured; findings, moves and verdicts are drawn from it. */
export type Measurement = Omit<Reading, 'findings' | 'moves' | 'predicted' | 'within' | 'verdict'>;

/** Everything measured on one blank frame: schema `evenfield.reading/1` of the public contract. */
export interface Reading {
  readonly schema: 'evenfield.reading/1';
  readonly frame: FrameFacts;
  readonly region: FrameRectangle;
  readonly grid: { readonly columns: number; readonly rows: number };
  readonly falloff: Falloff;
  readonly tint: Tint;
  readonly cast: Cast;
  readonly gradient: Gradient;
  readonly tintGradient: TintGradient;
  readonly clipping: { readonly highlightShare: number; readonly shadowShare: number };
  readonly noise: { readonly perPixelEv: number; readonly perCellEv: number };
  readonly findings: readonly Finding[];
  readonly moves: readonly Move[];
  readonly predicted: {
    readonly spreadEv: number;
    readonly plusMinusEv: number;
    readonly tintDeltaUv: number;
  } | null;
  readonly within: { readonly share: number; readonly crop: FrameRectangle | null };
  readonly verdict: Verdict;
}
