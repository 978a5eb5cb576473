import { withFileName } from './engine-error.ts';
import { lightOfCodes } from './frame/light-of-codes.ts';
import { responseFits } from './frame/linearise.ts';
import { decodeImage } from './intake/decode-image.ts';
import type { Platform } from './intake/platform.ts';
import { readIccProfile } from './intake/read-icc-profile.ts';
import { shotFacts } from './intake/shot-facts.ts';
import type { StoredImage } from './intake/stored-image.ts';
import { isWhiteBalanceAutomatic } from './intake/white-balance-mode.ts';
import type { FrameSource } from './measure-frame.ts';
import { type BlockLayout, blockCodes, blockLayout } from './response/block-codes.ts';
import { refuseDoubtful } from './response/bracket-doubts.ts';
import { type BracketShot, badBracket, SHOOT_AGAIN } from './response/bracket-shot.ts';
import type { CameraResponse, ResponseChannels } from './response/camera-response.ts';
import { exposureSteps, refuseNarrow } from './response/exposure-steps.ts';
import { recoverCurves } from './response/recover-curves.ts';
import { refuseUnlike } from './response/refuse-unlike.ts';
import { twoExposures, twoExposuresSay } from './response/two-exposures.ts';
import { refuseContradicted, refuseUnusable, usableFrames } from './response/usable-frames.ts';

export interface BracketOptions {
  /** Stops of exposure of each frame, in the frames' order and against any of them: what Exif can't know of flash. */
  readonly stops?: readonly number[];
}

export type BracketPhase = 'opening' | 'decoding' | 'averaging' | 'fitting';

const LEAST_FRAMES = 3;

/**
 * Recovers a camera's response from three or more frames of one still background that differ in exposure alone.
 *
 * @throws {@link EngineError} what decoding throws, and `bad-bracket` for frames that can't be gone by. Of two frames
 * the message, and `twoExposures` in its detail, tell how far their light is from linear.
 */
export async function readBracket(
  sources: readonly FrameSource[],
  options: BracketOptions,
  platform: Platform,
  onProgress: (phase: BracketPhase, fraction: number) => void = () => {},
): Promise<CameraResponse> {
  if (sources.length === 0) throw new RangeError('a bracket needs frames');
  if (sources.length === 1)
    throw badBracket(`There is one frame; three or more are needed. ${SHOOT_AGAIN}`, { frames: 1 });
  const shots: BracketShot[] = [];
  let light: ResponseChannels<Float64Array> | null = null;
  for (const [i, source] of sources.entries()) {
    const tell = (phase: BracketPhase, fraction: number) =>
      onProgress(phase, (i + fraction) / sources.length);
    const opened = await withFileName(source.name, openShot(source, shots[0] ?? null, platform, tell));
    light ??= opened.lightAtCode;
    shots.push(opened.shot);
  }
  refuseUnlike(shots);
  const steps = exposureSteps(shots, options.stops);
  const usable = usableFrames(shots, steps);
  if (shots.length === 2) {
    refuseUnusable(shots, usable, 2);
    refuseContradicted(usable, steps);
    throw ofTwoFrames(usable.shots, usable.stops, steps.by, light!);
  }
  refuseNarrow(shots, steps);
  refuseUnusable(shots, usable, LEAST_FRAMES);
  refuseContradicted(usable, steps);
  refuseNarrow(usable.shots, { ...steps, stops: usable.stops.map((stops) => stops - usable.stops[0]!) });
  onProgress('fitting', 0);
  const stops = usable.stops.map((value) => value - usable.stops[0]!);
  const curves = recoverCurves(
    usable.shots.map(({ blocks }) => blocks),
    stops,
  );
  refuseDoubtful(curves, usable);
  onProgress('fitting', 1);
  return {
    schema: 'evenfield.response/1',
    camera: usable.shots.find(({ model }) => model !== null)?.model ?? null,
    channels: curves.channels,
    plusMinusEv: curves.plusMinusEv,
    fromStops: -stops.at(-1)!,
    madeFrom: {
      frames: usable.shots.map(({ name, sha256, exposure }, i) => ({
        name,
        sha256,
        exposure,
        stops: stops[i]!,
      })),
      stopsBy: steps.by,
      codes: curves.codes,
    },
  };
}

async function openShot(
  { name, bytes }: FrameSource,
  first: BracketShot | null,
  platform: Platform,
  onProgress: (phase: BracketPhase, fraction: number) => void,
): Promise<{ shot: BracketShot; lightAtCode: ResponseChannels<Float64Array> }> {
  onProgress('opening', 0);
  const stored = await decodeImage(bytes, platform, (fraction) => onProgress('decoding', fraction));
  refuseWithoutCurve(stored, name);
  onProgress('averaging', 1);
  const { widthPx, heightPx, orientation, exposure, exif } = stored;
  const isSameSize = first?.widthPx === widthPx && first.heightPx === heightPx;
  const layout: BlockLayout = isSameSize ? first.blocks.layout : blockLayout(widthPx, heightPx);
  const shot: BracketShot = {
    ...{ name, widthPx, heightPx, orientation, exposure },
    sha256: await platform.sha256Hex(bytes),
    model: shotFacts(exif).model,
    isWhiteBalanceAutomatic: isWhiteBalanceAutomatic(exif),
    blocks: blockCodes(stored, layout),
  };
  return { shot, lightAtCode: lightOfCodes(stored, 8) };
}

function refuseWithoutCurve(stored: StoredImage, name: string): void {
  if (stored.iccProfile && readIccProfile(stored.iccProfile).kind === 'table-only')
    throw badBracket(
      `${name} embeds a colour profile of tables, by which its light is read: no response is gone by then. Choose JPEGs that the camera saved as sRGB, or in another space of one curve a channel.`,
    );
  if (responseFits(stored)) return;
  const what = stored.bitsPerSample === 8 ? 'is coded linearly' : `holds ${stored.bitsPerSample} bits`;
  throw badBracket(
    `${name} ${what}, not the 8 bits of a camera’s own picture, whose tone curve is what a response undoes. Raw and linear files need none: read them as they are. Choose the camera’s JPEGs.`,
    { bitsPerSample: stored.bitsPerSample },
  );
}

function ofTwoFrames(
  [bright, dark]: readonly BracketShot[],
  stops: readonly number[],
  by: 'shutter' | 'entered',
  light: ResponseChannels<Float64Array>,
) {
  const between = stops[0]! - stops[1]!;
  const two = between > 0 ? twoExposures(bright!.blocks, dark!.blocks, between, light) : null;
  const says = two
    ? `${twoExposuresSay(two, { by })} `
    : between > 0
      ? ''
      : 'These two frames are exposed alike. ';
  return badBracket(
    `${says}Two frames tell how far the light is from linear, not where; to recover the curve three or more are needed. ${SHOOT_AGAIN}`,
    { frames: 2, twoExposures: two },
  );
}
