import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { WIDE_RGB } from '../colour/wide-space.ts';
import type { ProfileTables } from '../intake/platform.ts';
import type { ThroughTables } from '../intake/stored-image.ts';
import { invertMatrix3, transformVector3 } from '../numeric/matrix3.ts';

/** How the light of a profile's tables is laid on codes. */
export interface TableScale {
  /** The most that a channel of {@link WIDE_RGB} gets: it becomes the highest code, so that nothing is cut off. */
  readonly peak: number;
}

/** Nodes along each side of the cube of codes that is looked through for the peak. */
const NODES = 9;
/** White of less luminance than this, against a media white of 1, is none: the tables are damaged, or not for pictures. */
const LEAST_WHITE = 0.1;

/**
 * Looks at what a profile's tables give over all codes: the most light, and the light of each code along the grey axis.
 * `null` where they give no white above black.
 */
export function tableScale(
  tables: ProfileTables,
  channels: 1 | 3,
  isGrey: boolean,
  bitsPerSample: 8 | 16,
): { readonly scale: TableScale; readonly lightAtCode: ThroughTables['lightAtCode'] } | null {
  const greys = 1 << bitsPerSample;
  const ramp = tables.toXyz(
    Uint16Array.from(
      { length: greys * channels },
      (_, i) => (65535 * Math.floor(i / channels)) / (greys - 1),
    ),
  );
  const whiteY = ramp[3 * greys - 2]!;
  if (!(whiteY > LEAST_WHITE) || !Number.isFinite(whiteY) || !(ramp[1]! < whiteY)) return null;
  const axis = channelsOf(ramp, isGrey);
  const all = channels === 1 || isGrey ? axis : [...axis, ...channelsOf(tables.toXyz(cube()), false)];
  const peak = all.reduce((most, light) => light.reduce((a, b) => Math.max(a, b), most), 0);
  if (!(peak > 0 && Number.isFinite(peak))) return null;
  const [red, green, blue] = axis.map((light) => rising(light, peak));
  return { scale: { peak }, lightAtCode: { red: red!, green: green!, blue: blue! } };
}

/** Codes of a lattice over the whole cube. */
function cube(): Uint16Array {
  const node = (i: number) => Math.round((65535 * (i % NODES)) / (NODES - 1));
  return Uint16Array.from({ length: 3 * NODES ** 3 }, (_, i) => {
    const at = Math.floor(i / 3);
    return node(i % 3 === 0 ? at : i % 3 === 1 ? Math.floor(at / NODES) : Math.floor(at / NODES ** 2));
  });
}

const FROM_XYZ = invertMatrix3(rgbToXyzMatrix(WIDE_RGB.primaries, WIDE_RGB.white));

/** Red, green and blue of {@link WIDE_RGB}; a grey picture's are all its luminance. */
function channelsOf(xyz: Float32Array, isGrey: boolean): Float64Array[] {
  const light = [0, 1, 2].map(() => new Float64Array(xyz.length / 3));
  for (let i = 0; i < xyz.length / 3; i++) {
    const [x, y, z] = [xyz[3 * i]!, xyz[3 * i + 1]!, xyz[3 * i + 2]!];
    const rgb = isGrey ? ([y, y, y] as const) : transformVector3(FROM_XYZ, [x, y, z]);
    for (const channel of [0, 1, 2] as const) light[channel]![i] = rgb[channel];
  }
  return light;
}

/** In parts of the peak, never falling and never below 0: tables that were measured are not quite smooth. */
function rising(light: Float64Array, peak: number): Float64Array {
  let most = 0;
  return light.map((value) => {
    most = Math.max(most, value / peak);
    return most;
  });
}
