/*
 * A set as the model knows it. Lengths are in frame widths about the middle of the frame on the background plane: x
 * right and y down as the camera sees them, distances along the normal. A light behind a sheet stands beyond the
 * plane, any other on the camera's side; which of the two does not change what it throws onto the plane.
 */

/** What a light shines with: a disc or a rectangle across its axis, upright where the axis is level. */
export type LightFace =
  | { readonly kind: 'disc'; readonly radius: number }
  | { readonly kind: 'rectangle'; readonly width: number; readonly height: number };

/** A colour against the white of the file: warmer and greener are positive. */
export interface SourceColour {
  readonly mired: number;
  readonly duv: number;
}

/** Where the beam of a reflector or grid ends. */
export interface BeamEdge {
  /** From the axis to where half of the light is left. */
  readonly angleRad: number;
  /** 1 dies away all over the beam, 10 and more is a hard edge. */
  readonly steepness: number;
}

export interface SetLight {
  readonly x: number;
  readonly y: number;
  readonly distance: number;
  /** The spot that its axis meets. */
  readonly aimX: number;
  readonly aimY: number;
  readonly face: LightFace;
  /** m in cosᵐ of the angle to its axis: 0 shines alike all round, 1 as an even (Lambertian) face. */
  readonly beamPower: number;
  /** `null` where the beam has no edge. */
  readonly beamEdge: BeamEdge | null;
  /** Light that a point of this strength throws squarely on the plane from one frame width away, in stops. */
  readonly strengthEv: number;
  readonly colour: SourceColour;
}

/** A sheet that lets part of the light through nearly straight on. */
export interface SheetScatter {
  /** Share that stays in the lobe, 0 to 1; the rest leaves evenly. */
  readonly forwardShare: number;
  /** Spread of the lobe about the straight direction: one standard deviation in each of two directions. */
  readonly lobeRad: number;
}

/** Light of the room on the background. */
export interface SetSpill {
  /** At the middle of the frame, in stops. */
  readonly levelEv: number;
  /** Rise per frame width to the right and down, in stops. */
  readonly rightEv: number;
  readonly downEv: number;
  readonly colour: SourceColour;
}

/** Loss of a lens towards the corners, in stops, 0 or above: its parts that grow as r² and as r⁴. */
export interface LensFall {
  readonly squareEv: number;
  readonly fourthEv: number;
  /** Change of colour in the corners, growing as r². */
  readonly corner: SourceColour;
}

/** How a panel shines by itself. */
export interface PanelProfile {
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  readonly levelEv: number;
  /** Rise of the edges over the middle, across and down, in stops; negative where the middle is hotter. */
  readonly acrossEv: number;
  readonly downEv: number;
  /** Rise per frame width to the right and down, in stops. */
  readonly rightEv: number;
  readonly bottomEv: number;
  /** Half of the panel's width and height. */
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly colour: SourceColour;
}

/** A surface that tints the light more on one side. */
export interface SurfaceTint {
  /** Where half of it is reached. */
  readonly x: number;
  readonly y: number;
  /** Change from the clear side to the tinted one: its parts to the right and down; warmer is positive. */
  readonly rightMired: number;
  readonly downMired: number;
  /** Greener by so much for each mired, and darker in stops. */
  readonly duvPerMired: number;
  readonly lossEvPerMired: number;
  /** From the middle to where nearly all of it is reached, in frame widths. */
  readonly soft: number;
}

/** The dark frame of a sheet or panel that reaches into the picture. In no family that is fitted: the region leaves it out. */
export interface SetRim {
  /** How far in from each side of the picture, in frame widths; below 0 where it stays outside. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Its loss against the surface beside it, in stops. */
  readonly lossEv: number;
  /** Over how much its edge goes from dark to light. */
  readonly soft: number;
}

export interface LitSet {
  readonly lights: readonly SetLight[];
  readonly panel: PanelProfile | null;
  readonly sheet: SheetScatter | null;
  readonly spill: SetSpill | null;
  readonly tint: SurfaceTint | null;
  readonly rim: SetRim | null;
  readonly lens: LensFall | null;
  /** Lens to background. */
  readonly cameraDistance: number;
  /** Height of the frame over its width. */
  readonly aspect: number;
  /** How far hands missed the changes that led to it, in standard deviations; absent where nothing was changed. */
  readonly slips?: readonly number[];
}
