import type { Vector3 } from '../numeric/matrix3.ts';
import type { Exposure } from '../reading.ts';
import type { DngCalibration, DngTags } from './dng-tags.ts';
import type { RawMetadata } from './raw-file.ts';
import { readExif } from './read-exif.ts';
import type { RawColour } from './stored-raw.ts';

/** Exif's orientation by the decoder's flip (bit 0 left and right, bit 1 up and down, bit 2 rows and columns). */
const ORIENTATIONS = [1, 2, 4, 3, 5, 8, 6, 7];
/** Exif's number for D65, which the decoder's own matrices are for. */
const D65_ILLUMINANT = 21;
const IDENTITY = [1, 0, 0, 0, 1, 0, 0, 0, 1] as const;

/** Maker and model, not said twice. */
export function cameraOf({
  normalized_make,
  normalized_model,
  camera_make,
  camera_model,
}: RawMetadata): string {
  const make = (normalized_make || camera_make).trim();
  const model = (normalized_model || camera_model).trim();
  return model.toLowerCase().startsWith(make.toLowerCase()) ? model : `${make} ${model}`.trim();
}

/** What is needed to turn it upright: as a DNG states it; else as the decoder knows the maker's ways. */
export function orientationOf(bytes: Uint8Array, { flip, dng_version }: RawMetadata): number {
  return dng_version > 0 ? readExif(bytes).orientation : (ORIENTATIONS[flip] ?? 1);
}

/** By its Exif where the file is laid out as a TIFF; else as the decoder found it. */
export function exposureOf(bytes: Uint8Array, metadata: RawMetadata): Exposure | null {
  const { exposure } = readExif(bytes);
  if (exposure) return exposure;
  if (metadata.dng_version > 0) return null; // what is not there is not made up by the decoder's defaults
  const positive = (value: number) => (Number.isFinite(value) && value > 0 ? value : null);
  const found: Exposure = {
    seconds: positive(metadata.shutter),
    fNumber: positive(metadata.aperture),
    iso: positive(metadata.iso_speed),
    focalLengthMm: positive(metadata.focal_len),
    takenAt: takenAt(metadata.timestamp),
  };
  return Object.values(found).some((value) => value !== null) ? found : null;
}

/** The decoder takes the camera's clock for this place's own; taking it back so gives the clock's reading again. */
function takenAt(seconds: number): string | null {
  if (!(seconds > 0)) return null;
  const date = new Date(seconds * 1000);
  const two = (value: number) => String(value).padStart(2, '0');
  return (
    `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}` +
    `T${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`
  );
}

/** A DNG's own matrices, else the decoder's. */
export function colourOf({ color_data }: RawMetadata, dng: DngTags | null): RawColour {
  const { cam_mul, cam_xyz } = color_data;
  if (dng && dng.calibrations.length > 0)
    return { neutral: dng.asShotNeutral, whiteXy: dng.asShotWhiteXy, calibrations: dng.calibrations };
  const matrix = cam_xyz.slice(0, 3).flatMap((row) => row.slice(0, 3));
  const isKnown =
    matrix.length === 9 && [0, 3, 6].every((at) => matrix.slice(at, at + 3).some((v) => v !== 0));
  const calibration: DngCalibration = {
    illuminant: D65_ILLUMINANT,
    xyzToCamera: matrix as unknown as DngCalibration['xyzToCamera'],
    forward: null,
    balance: IDENTITY,
  };
  return {
    neutral: dng?.asShotNeutral ?? neutralOf(cam_mul),
    whiteXy: null,
    calibrations: isKnown ? [calibration] : [],
  };
}

/** Multipliers that are all alike say nothing: no sensor is so made that they could be. */
function neutralOf([red, green, blue]: readonly number[]): Vector3 | null {
  if (!(red! > 0 && green! > 0 && blue! > 0) || (red === green && blue === green)) return null;
  return [green! / red!, 1, green! / blue!];
}
