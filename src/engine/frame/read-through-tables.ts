import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { WIDE_RGB } from '../colour/wide-space.ts';
import { EngineError } from '../engine-error.ts';
import { heldChannels } from '../intake/held-channels.ts';
import type { Platform, ProfileTables } from '../intake/platform.ts';
import { readIccProfile } from '../intake/read-icc-profile.ts';
import type { StoredImage } from '../intake/stored-image.ts';
import { invertMatrix3 } from '../numeric/matrix3.ts';
import { codeLimits } from './code-limits.ts';
import { eachColourOnce } from './each-colour-once.ts';
import { type TableScale, tableScale } from './table-scale.ts';

/** Pixels handed over at a time: a few megabytes, and progress often enough to be seen moving. */
const PIECE_PIXELS = 1 << 16;
const TOP_CODE = 65535;

/**
 * Turns a picture whose profile holds tables only through them, into 16-bit linear light of {@link WIDE_RGB}; any other
 * picture comes back as it is. A grey picture stays grey: of what the tables give it, its luminance is kept, since a
 * grey picture is neutral by definition. What was clipped or blocked in the file is marked pixel by pixel, because mixed
 * channels no longer show it. Where the tables can't be gone by, the picture says why.
 *
 * @throws {@link EngineError} `unsupported-file` where the module that reads tables can't be had.
 */
export async function readThroughTables(
  stored: StoredImage,
  platform: Platform,
  onProgress?: (fraction: number) => void,
): Promise<StoredImage> {
  const profile = stored.iccProfile && readIccProfile(stored.iccProfile);
  if (profile?.kind !== 'table-only') return stored;
  const isGrey = heldChannels(stored) < 3;
  const notRead = (why: string): StoredImage => ({ ...stored, tablesNotRead: why });
  if (!platform.openProfileTables) return notRead('which are not read here');
  if (profile.channels === 1 && !isGrey) return notRead('for grey, and the picture is in colour');
  onProgress?.(0);
  const tables = await platform.openProfileTables(stored.iccProfile!).catch(refuseWithoutModule);
  if (!tables) return notRead('which are damaged');
  try {
    const laid = triedScale(tables, profile.channels, isGrey, stored.bitsPerSample);
    if (typeof laid === 'string') return notRead(laid);
    const { scale, lightAtCode } = laid;
    const { samples, extremes } = turned(
      stored,
      tables,
      { channels: profile.channels, isGrey, scale },
      onProgress,
    );
    return {
      ...stored,
      channels: heldChannels(stored),
      bitsPerSample: 16,
      samples,
      jpegDcSteps: null, // a block's mean in the file's codes is no mean of these
      throughTables: {
        description: profile.description,
        bitsPerSample: stored.bitsPerSample,
        extremes,
        lightAtCode,
        floorCode: codeLimits(stored).floorCode,
      },
    };
  } finally {
    tables.close();
  }
}

/** The first look over all codes is where damaged tables show, by what they give or by the module's giving up. */
function triedScale(
  ...of: Parameters<typeof tableScale>
): NonNullable<ReturnType<typeof tableScale>> | string {
  try {
    return tableScale(...of) ?? 'which give no white above black';
  } catch {
    return 'which are damaged';
  }
}

function refuseWithoutModule(cause: unknown): never {
  throw new EngineError(
    'worker-lost',
    'The picture’s colour profile holds tables, and the part of the page that reads those could not be fetched. ' +
      'Check the connection and choose the file again, or export it as sRGB.',
    {},
    { cause },
  );
}

function turned(
  stored: StoredImage,
  tables: ProfileTables,
  { channels, isGrey, scale }: { channels: 1 | 3; isGrey: boolean; scale: TableScale },
  onProgress?: (fraction: number) => void,
): { samples: Uint16Array; extremes: Uint8Array } {
  const { samples: source, channels: step, bitsPerSample } = stored;
  const { clipCode, floorCode } = codeLimits(stored);
  const pixels = stored.widthPx * stored.heightPx;
  const outStep = heldChannels(stored);
  const hasAlpha = outStep % 2 === 0;
  const to16 = bitsPerSample === 8 ? 257 : 1;
  const [second, third] = isGrey ? [0, 0] : [1, 2];
  const extremes = new Uint8Array(pixels);
  const samples = new Uint16Array(pixels * outStep);
  const piece = new Uint16Array(PIECE_PIXELS * channels);
  const put = isGrey ? putGrey : putColour;
  const toXyz = bitsPerSample === 8 && channels === 3 ? eachColourOnce(tables) : tables.toXyz;
  for (let first = 0; first < pixels; first += PIECE_PIXELS) {
    const count = Math.min(PIECE_PIXELS, pixels - first);
    for (let i = 0, at = first * step, to = 0; i < count; i++, at += step) {
      const a = source[at]!;
      const b = source[at + second]!;
      const c = source[at + third]!;
      const isClipped = a >= clipCode || b >= clipCode || c >= clipCode;
      const isBlocked = a <= floorCode || b <= floorCode || c <= floorCode;
      extremes[first + i] = (isClipped ? 1 : 0) | (isBlocked ? 2 : 0);
      piece[to++] = a * to16;
      if (channels === 1) continue;
      piece[to++] = b * to16;
      piece[to++] = c * to16;
    }
    put(toXyz(piece.subarray(0, count * channels)), samples, first * outStep, outStep, scale);
    if (hasAlpha)
      for (let i = first; i < first + count; i++)
        samples[i * outStep + outStep - 1] = source[i * step + step - 1]! * to16;
    onProgress?.((first + count) / pixels);
  }
  return { samples, extremes };
}

const FROM_XYZ = invertMatrix3(rgbToXyzMatrix(WIDE_RGB.primaries, WIDE_RGB.white));

function putColour(
  xyz: Float32Array,
  samples: Uint16Array,
  from: number,
  step: number,
  scale: TableScale,
): void {
  const [a, b, c, d, e, f, g, h, k] = FROM_XYZ.map(
    (value) => (value * TOP_CODE) / scale.peak,
  ) as unknown as typeof FROM_XYZ;
  for (let i = 0, at = from; i < xyz.length; i += 3, at += step) {
    const x = xyz[i]!;
    const y = xyz[i + 1]!;
    const z = xyz[i + 2]!;
    samples[at] = coded(a * x + b * y + c * z);
    samples[at + 1] = coded(d * x + e * y + f * z);
    samples[at + 2] = coded(g * x + h * y + k * z);
  }
}

function putGrey(
  xyz: Float32Array,
  samples: Uint16Array,
  from: number,
  step: number,
  scale: TableScale,
): void {
  const gain = TOP_CODE / scale.peak;
  for (let i = 1, at = from; i < xyz.length; i += 3, at += step) samples[at] = coded(gain * xyz[i]!);
}

/** Rounded and held within what the code takes; what is no number counts as black. */
function coded(value: number): number {
  return value > 0 ? Math.min(TOP_CODE, value + 0.5) : 0;
}
