/** What the platform's raw decoder says of a file, in the decoder's own words (LibRaw's metadata); see `raw-facts.ts`. */
export interface RawMetadata {
  readonly width: number;
  readonly height: number;
  /** Of the picture as stored: 0 upright, 3 upside down, 5 a quarter turn against the clock, 6 with it. */
  readonly flip: number;
  readonly camera_make: string;
  readonly camera_model: string;
  readonly iso_speed: number;
  readonly shutter: number;
  readonly aperture: number;
  readonly focal_len: number;
  /** Seconds since 1970 of the camera's own clock, taken as if it stood at the decoder's place. */
  readonly timestamp: number;
  readonly normalized_make: string;
  readonly normalized_model: string;
  readonly dng_version: number;
  readonly is_foveon: number;
  readonly colors: number;
  /** Two bits a cell for 8 rows of 2, from the low end; 9 for a 6 × 6 pattern, 0 for none. */
  readonly filters: number;
  /** A letter for each number of a filter. */
  readonly cdesc: string;
  readonly color_data: {
    readonly black: number;
    readonly maximum: number;
    readonly cam_mul: readonly number[];
    readonly pre_mul: readonly number[];
    readonly raw_bps: number;
    readonly cam_xyz: readonly (readonly number[])[];
    readonly rgb_cam: readonly (readonly number[])[];
  };
}

/** A sensor's cells as read out, margins and all; one value a cell, row-major. */
export interface RawMosaic {
  readonly raw_width: number;
  readonly raw_height: number;
  /** The part that makes the picture. */
  readonly left_margin: number;
  readonly top_margin: number;
  readonly width: number;
  readonly height: number;
  readonly data: Uint16Array;
}

/** How a picture is to be developed: always linear, in the camera's own colours, 16 bits, not turned, not brightened. */
export interface DevelopWishes {
  /** Half the size along each side, cells taken together rather than interpolated. */
  readonly halfSize: boolean;
  /** What red, green and blue are multiplied by; `null` leaves codes as they are but for black, which is taken off. */
  readonly multipliers: readonly [number, number, number] | null;
}

export interface DevelopedPicture {
  readonly width: number;
  readonly height: number;
  readonly colors: number;
  readonly bits: number;
  readonly data: Uint16Array;
  /** What the decoder took for white, less the black that it took off; where it was not asked to scale, the code of white. */
  readonly maximum: number;
}

/**
 * A raw file held open by the platform's decoder. What fails rejects with an `Error` whose message ends in "code" and
 * the decoder's own number.
 */
export interface RawFile {
  readonly metadata: RawMetadata;
  /** `null` where the file does not hold one plane of cells. */
  mosaic(): Promise<RawMosaic | null>;
  developed(wishes: DevelopWishes): Promise<DevelopedPicture>;
  /** Gives the decoder's memory back; nothing may be asked of it afterwards. */
  dispose(): void;
}
