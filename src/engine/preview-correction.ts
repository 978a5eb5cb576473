import { rgbToXyzMatrix } from './colour/rgb-to-xyz-matrix.ts';
import { srgbEncode } from './colour/srgb-curve.ts';
import { SRGB } from './colour/srgb-space.ts';
import { type CorrectedLight, correctLight, type LightOptions } from './correct/correct-light.ts';
import { foretoldClipping } from './correct/foretold-clipping.ts';
import { type FrameToCorrect, frameDifferences } from './correct/frame-differences.ts';
import { type FrameInSmall, frameInSmall } from './correct/frame-in-small.ts';
import type { FoundMatte } from './correct/matte/find-matte.ts';
import { matteDoubts } from './correct/matte/matte-doubts.ts';
import { pixelSample } from './correct/pixel-sample.ts';
import { refuseBlack } from './correct/refuse-black.ts';
import type { LinearFrame } from './frame/linear-frame.ts';
import { linearise } from './frame/linearise.ts';
import { readThroughTables } from './frame/read-through-tables.ts';
import { uprightSize } from './grid/upright-rectangle.ts';
import { decodeImage } from './intake/decode-image.ts';
import { heldChannels } from './intake/held-channels.ts';
import type { Platform } from './intake/platform.ts';
import { shotOf } from './intake/shot-facts.ts';
import type { FrameSource } from './measure-frame.ts';
import { invertMatrix3, multiplyMatrix3 } from './numeric/matrix3.ts';
import { gainDifferenceEv } from './profile/gain-over-distance.ts';
import { parseProfile } from './profile/parse-profile.ts';
import type { Profile } from './profile/profile.ts';
import type { CameraResponse } from './response/camera-response.ts';
import { checkResponse } from './response/check-response.ts';

/** A frame opened for trying corrections on. Structured-cloneable. */
export interface OpenedFrame {
  readonly small: FrameInSmall;
  /** Some of its own pixels, in the places of those in small: these have the noise that averaging takes out. */
  readonly sample: readonly LinearFrame[];
  /** Of the file itself. */
  readonly known: FrameToCorrect;
}

export type PreviewOptions = Omit<LightOptions, 'blank' | 'blockPx'>;

/** One picture as it is to be looked at, upright. */
export interface PreviewPicture {
  /** sRGB. */
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
  /** Stops of luminance against white, row-major. */
  readonly stops: Float32Array;
}

/** A frame in small as shot and as it would be corrected, upright. Structured-cloneable. */
export interface CorrectionPreview {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly before: PreviewPicture;
  readonly after: PreviewPicture;
  /** Per pixel: 1 clipped in the file, 2 taken beyond white by the gains on average, 0 neither. */
  readonly clipped: Uint8Array;
  /** Pixels of the file, counted, and those that the gains would take beyond white, by a sample of its own pixels. */
  readonly clippedBefore: number;
  readonly clippedByGains: number;
  /** Per pixel: 1 background, 0 subject; `null` without a blank to tell them by. */
  readonly backgroundAt: Uint8Array | null;
  readonly background: CorrectedLight['background'];
  readonly liftStops: number;
  /** Stops by which gains differ at most over each of some distances, in widths of the frame. */
  readonly displaced: readonly { readonly frameWidths: number; readonly ev: number }[];
  /** In what the frame differs from the profile's blank, and what makes the matte doubtful, in sentences. */
  readonly flags: readonly string[];
}

/** Side of the blocks that a background's figures are told over, in the file's own pixels and at least in small. */
const BLOCK_PX = 64;
const LEAST_BLOCK_PX = 4;
/** Longest side of the picture, in pixels. */
const LONGEST_PX = 720;
/** How far a glass may bend a view. */
const DISPLACEMENTS = [0.02, 0.05, 0.1, 0.2];
/** Below this a figure in stops says nothing. */
const LEAST_LIGHT = 2 ** -16;

/**
 * @param response - the one that the profile's blank was read by.
 * @throws {@link EngineError} what decoding throws; `no-light` for a black frame; `wrong-profile` for a response that is
 * none.
 */
export async function openToCorrect(
  { bytes }: FrameSource,
  platform: Platform,
  response: CameraResponse | null = null,
): Promise<OpenedFrame> {
  if (response) checkResponse(response);
  const stored = await readThroughTables(await decodeImage(bytes, platform), platform);
  const { frame } = linearise(stored, response);
  refuseBlack(frame);
  const { orientation, exposure } = stored;
  const isGrey = heldChannels(stored) < 3;
  const small = frameInSmall(frame, LONGEST_PX, isGrey);
  return {
    small,
    sample: pixelSample(frame, small.frame.widthPx, small.frame.heightPx, isGrey),
    known: {
      ...{ ...uprightSize(stored.raw ?? stored, orientation), orientation, exposure, light: frame.light },
      sha256: await platform.sha256Hex(bytes),
      shot: shotOf(stored),
    },
  };
}

/**
 * Shows what a correction would do to a frame, on its picture in small.
 *
 * @throws {@link EngineError} as {@link correctLight}, and `wrong-profile`.
 */
export function previewCorrection(
  { small, sample, known }: OpenedFrame,
  profile: Profile,
  options: PreviewOptions,
  blank: OpenedFrame | null,
): CorrectionPreview {
  const gains = parseProfile(profile);
  const { frame } = small;
  const { widthPx, heightPx, channels, lightAtCode } = frame;
  const blockPx = Math.max(LEAST_BLOCK_PX, Math.round((BLOCK_PX * widthPx) / known.widthPx));
  const { samples, background, matte, liftStops } = correctLight(
    frame,
    gains,
    { ...options, blockPx, ...(blank && { blank: blank.small.frame }) },
    { channels, bitsPerSample: 16, lightAtCode },
  );
  const doubts =
    matte && options.treat === 'background-only' ? matteDoubts(inFile(matte, known.widthPx / widthPx)) : [];
  const clipped = beyondWhite(samples, channels, small.clipped);
  const filePixels = known.widthPx * known.heightPx;
  const lostShare = foretoldClipping(sample, gains, options, liftStops, matte, channels < 3);
  return {
    widthPx,
    heightPx,
    before: pictureOf(frame),
    after: pictureOf({ ...frame, samples }),
    clipped,
    clippedBefore: Math.round(small.clippedShare * filePixels),
    clippedByGains: Math.round(lostShare * filePixels),
    backgroundAt: matte?.background ?? null,
    background,
    liftStops,
    displaced: DISPLACEMENTS.map((frameWidths) => ({
      frameWidths,
      ev: gainDifferenceEv(gains, frameWidths),
    })),
    flags: [...frameDifferences(known, gains, blank?.known.shot), ...doubts],
  };
}

/** A matte's lengths in pixels of the file. */
function inFile(matte: FoundMatte, scale: number): FoundMatte {
  const { pxPerCell, shiftPx } = matte;
  return {
    ...matte,
    pxPerCell: pxPerCell * scale,
    shiftPx: shiftPx && { right: shiftPx.right * scale, down: shiftPx.down * scale },
  };
}

function beyondWhite(
  samples: LinearFrame['samples'],
  channels: number,
  clippedInFile: Uint8Array,
): Uint8Array {
  return clippedInFile.map((isClipped, pixel) => {
    if (isClipped) return 1;
    for (let channel = 0; channel < channels; channel++)
      if (samples[pixel * channels + channel] === 65535) return 2;
    return 0;
  });
}

function pictureOf({ samples, channels, lightAtCode, toXyz }: LinearFrame): PreviewPicture {
  const table = lightAtCode.green; // one and the same for all channels of a frame in small
  const pixels = samples.length / channels;
  const rgba = new Uint8ClampedArray(pixels * 4);
  const stops = new Float32Array(pixels);
  const m = multiplyMatrix3(invertMatrix3(rgbToXyzMatrix(SRGB.primaries, SRGB.white)), toXyz);
  const [second, third] = channels < 3 ? [0, 0] : [1, 2];
  for (let pixel = 0, at = 0; pixel < pixels; pixel++, at += channels) {
    const red = table[samples[at]!]!;
    const green = table[samples[at + second]!]!;
    const blue = table[samples[at + third]!]!;
    rgba[pixel * 4] = 255 * srgbEncode(m[0] * red + m[1] * green + m[2] * blue);
    rgba[pixel * 4 + 1] = 255 * srgbEncode(m[3] * red + m[4] * green + m[5] * blue);
    rgba[pixel * 4 + 2] = 255 * srgbEncode(m[6] * red + m[7] * green + m[8] * blue);
    rgba[pixel * 4 + 3] = 255;
    stops[pixel] = Math.log2(Math.max(toXyz[3] * red + toXyz[4] * green + toXyz[5] * blue, LEAST_LIGHT));
  }
  return { rgba, stops };
}
