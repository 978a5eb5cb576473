import type { Crease } from './creases.ts';
import type { DarkRim } from './dark-rim.ts';
import type { DustSpot } from './dust-spots.ts';
import type { FlickerBands } from './flicker-bands.ts';
import type { LensColour } from './lens-colour.ts';
import type { LightColour } from './light-colour.ts';
import type { Weave } from './weave.ts';

/*
 * Positions in mm about the middle of the frame on the background plane: x right and y down as the camera sees them.
 * The camera looks at the middle from `cameraDistanceMm` in front. Light is in units of what a lamp of power 1
 * throws squarely onto a plane 1 m away.
 */

export type LampFace =
  | { readonly kind: 'disc'; readonly diameterMm: number }
  | { readonly kind: 'rectangle'; readonly widthMm: number; readonly heightMm: number };

/** Luminous intensity against the angle from the axis, 1 on the axis. */
export type Beam =
  | { readonly kind: 'cosine-power'; readonly power: number }
  | { readonly kind: 'flat-topped'; readonly halfDeg: number; readonly softDeg: number };

export interface StudioLamp {
  readonly xMm: number;
  readonly yMm: number;
  /** Along the normal: behind a sheet, in front of a wall or sweep. */
  readonly distanceMm: number;
  /** Spot of the background plane that its axis meets. */
  readonly aimXMm: number;
  readonly aimYMm: number;
  readonly face: LampFace;
  readonly beam: Beam;
  readonly power: number;
  readonly colour: LightColour;
}

/** Share of light let through or thrown back, R, G, B, at a place on the background. */
export type SurfaceTint = (xMm: number, yMm: number) => readonly [number, number, number];

export type Background =
  | {
      readonly kind: 'sheet';
      /** Share of the transmitted light that stays in a lobe about its direction; the rest leaves evenly. */
      readonly forwardShare: number;
      /** Standard deviation of that lobe. */
      readonly lobeDeg: number;
      readonly tint?: SurfaceTint;
    }
  | { readonly kind: 'wall'; readonly tint?: SurfaceTint }
  | {
      readonly kind: 'sweep';
      /** Where the wall begins to curve towards the camera. */
      readonly curvesAtYMm: number;
      readonly radiusMm: number;
      readonly tint?: SurfaceTint;
    }
  | {
      readonly kind: 'panel';
      readonly widthMm: number;
      readonly heightMm: number;
      /** How far the light of strips along its left and right edge carries: the middle is darker. */
      readonly carriesMm: number;
      /** How much hotter its middle is than its corners beside that, stops. */
      readonly middleEv?: number;
      /** Ripple of a grid of emitters, peak to peak, and its pitch. */
      readonly rippleEv: number;
      readonly pitchMm: number;
      readonly colour: LightColour;
      readonly tint?: SurfaceTint;
    };

/** The room's own light on the background. */
export interface RoomSpill {
  /** Light at the frame's middle. */
  readonly level: number;
  readonly colour: LightColour;
  /** Change over one frame width, towards `towardDeg` (clockwise from the right); 0 is the same everywhere. */
  readonly slopeEv: number;
  readonly towardDeg: number;
}

export interface StudioLens {
  /** Whether the fourth power of the cosine of the angle to the axis applies. */
  readonly naturalFall: boolean;
  /** Loss in the corner beside that, growing as the fourth power of the distance from the middle; stops, over 0. */
  readonly mechanicalEv: number;
  readonly colour?: LensColour;
}

/** What is too fine for light alone: it lies on the background and stays with it. */
export interface SurfaceTexture {
  readonly creases?: readonly Crease[];
  readonly weave?: Weave;
  readonly dust?: readonly DustSpot[];
}

export interface StudioSet {
  readonly frameWidthMm: number;
  readonly frameHeightMm: number;
  readonly cameraDistanceMm: number;
  /** How far the camera was slid to the right over the same light; the frame goes with it, the light does not. */
  readonly cameraRightMm?: number;
  readonly background: Background;
  readonly lamps: readonly StudioLamp[];
  readonly spill: RoomSpill | null;
  readonly lens: StudioLens | null;
  readonly texture?: SurfaceTexture;
  readonly rim?: DarkRim;
  readonly bands?: FlickerBands;
  readonly whiteBalance: LightColour;
  /** Brings the brightest channel's peak to this, or multiplies light by a factor kept from an earlier take. */
  readonly exposure: { readonly peak: number } | { readonly factor: number };
}

/** A lamp of everyday kind, facing the middle of the frame. */
export function plainLamp(changes: Partial<StudioLamp>): StudioLamp {
  return {
    xMm: 0,
    yMm: 0,
    distanceMm: 600,
    aimXMm: changes.xMm ?? 0,
    aimYMm: changes.yMm ?? 0,
    face: { kind: 'disc', diameterMm: 180 },
    beam: { kind: 'cosine-power', power: 2 },
    power: 1,
    colour: { kind: 'daylight', kelvin: 5500 },
    ...changes,
  };
}
