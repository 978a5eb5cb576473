import type { ShotFacts } from '../intake/shot-facts.ts';
import type { Profile } from '../profile/profile.ts';
import type { Exposure, LightBasis } from '../reading.ts';

/** What is known of a frame that is to be corrected, for holding it against the blank. */
export interface FrameToCorrect {
  /** Of the upright frame. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly orientation: number;
  readonly exposure: Exposure | null;
  readonly light: LightBasis;
  readonly sha256?: string | null;
  readonly shot?: ShotFacts;
}

/** Frames of another size keep their shape within a pixel or so of rounding. */
const SAME_SHAPE = 0.004;
/** What a lens writes of one and the same setting. */
const SAME_SETTING = 0.02;
/** Lenses tell the distance that they are focused at in steps of some percent. */
const SAME_FOCUS = 0.1;
/** Stops from which a tone curve makes the gains of one exposure wrong for another. */
const OTHER_EXPOSURE_EV = 0.5;

/**
 * Says in sentences what sets a frame apart from the blank that the profile was made from; empty where nothing does.
 *
 * @param blank - the blank's camera and focus, which a profile does not hold.
 */
export function frameDifferences(
  frame: FrameToCorrect,
  profile: Profile,
  blank: ShotFacts | null = null,
): string[] {
  const { madeFrom } = profile;
  const [own, its] = [frame.exposure, madeFrom.exposure];
  const says = [
    isSameFile(frame, profile) ? 'This is the blank frame itself.' : null,
    shape(frame, madeFrom),
    frame.orientation === madeFrom.orientation
      ? null
      : `The camera was held otherwise (Exif orientation ${frame.orientation}; the blank’s is ${madeFrom.orientation}): the gains are laid over the frame as it is seen upright, which is right only if the light stood so too.`,
    setting(
      own?.focalLengthMm,
      its?.focalLengthMm,
      (mm) => `${rounded(mm)} mm`,
      'focal length',
      FOCAL_LENGTH,
    ),
    setting(own?.fNumber, its?.fNumber, (n) => `f/${rounded(n)}`, 'aperture', APERTURE),
    focus(frame.shot?.subjectDistanceM, blank?.subjectDistanceM),
    otherCamera(frame.shot?.model, blank?.model),
    otherBalance(frame.shot?.neutral, blank?.neutral),
    coding(frame.light, profile.light),
    frame.light === 'display-decoded' ? exposureUnderCurve(own, its) : null,
  ];
  return says.filter((sentence) => sentence !== null);
}

const FOCAL_LENGTH =
  'the frame shows another part of the background, so the gains do not lie where they belong. Shoot a blank at this focal length';
const APERTURE =
  'the lens’s own falloff changes with it, mostly in the corners. Shoot a blank at this aperture if the corners matter';

function isSameFile({ sha256 }: FrameToCorrect, { madeFrom }: Profile): boolean {
  return typeof sha256 === 'string' && sha256 === madeFrom.sha256;
}

function shape(frame: FrameToCorrect, blank: Profile['madeFrom']): string | null {
  const sizes = `${frame.widthPx} × ${frame.heightPx} pixels; the blank has ${blank.widthPx} × ${blank.heightPx}`;
  const aspect = frame.widthPx / frame.heightPx;
  const itsAspect = blank.widthPx / blank.heightPx;
  if (Math.abs(Math.log(aspect / itsAspect)) > SAME_SHAPE) {
    if (Math.abs(Math.log(aspect * itsAspect)) <= SAME_SHAPE)
      return `The frame is turned by a quarter (${sizes}): the gains do not lie where they belong. Shoot a blank with the camera held as for this frame.`;
    return `The frame has another shape, so it seems to be cropped (${sizes}): the gains are stretched over it and do not lie where they belong. Correct it before cropping.`;
  }
  if (frame.widthPx === blank.widthPx && frame.heightPx === blank.heightPx) return null;
  return `The frame is of another size (${sizes}): the gains are laid over it in proportion, which is right if both show the same view.`;
}

function setting(
  own: number | null | undefined,
  its: number | null | undefined,
  inWords: (value: number) => string,
  name: string,
  cost: string,
): string | null {
  if (!own || !its || Math.abs(Math.log(own / its)) <= SAME_SETTING) return null;
  return `The ${name} is ${inWords(own)}; the blank’s is ${inWords(its)}: ${cost}.`;
}

function focus(own: number | null | undefined, its: number | null | undefined): string | null {
  if (!own || !its || own === its || Math.abs(Math.log(own / its)) <= SAME_FOCUS) return null;
  const far = (distanceM: number) =>
    distanceM === Number.POSITIVE_INFINITY ? 'infinity' : metres(distanceM);
  return `The lens was focused at ${far(own)}; for the blank at ${far(its)}: that changes a little how much of the background is in view, and how sharp its texture and its specks are. Shoot a blank at this focus.`;
}

function metres(distanceM: number): string {
  if (distanceM < 1) return `${Math.round(distanceM * 100)} cm`;
  return `${distanceM < 10 ? Math.round(distanceM * 100) / 100 : rounded(distanceM)} m`;
}

function otherCamera(own: string | null | undefined, its: string | null | undefined): string | null {
  if (!own || !its || own === its) return null;
  return `The frame was shot with another camera (${own}) than the blank (${its}): its lens, framing and colours are others, so the gains hardly fit. Shoot a blank with this camera.`;
}

/** As a share of the green, from which another balance is another colour. */
const SAME_BALANCE = 0.01;

function otherBalance(own: ShotFacts['neutral'], its: ShotFacts['neutral']): string | null {
  if (!own || !its) return null;
  const ratio = (channel: 0 | 2) => own[channel] / own[1] / (its[channel] / its[1]);
  if (Math.abs(ratio(0) - 1) <= SAME_BALANCE && Math.abs(ratio(2) - 1) <= SAME_BALANCE) return null;
  return 'The frame was shot with another white balance than the blank: it is developed by its own, so the cast is not taken out as it was found. Set one white balance for both.';
}

function coding(own: LightBasis, its: LightBasis): string | null {
  if (own === its) return null;
  if (own === 'scene-linear')
    return 'The profile was made from a frame coded for display, on which the camera may have laid a tone curve and its own shading correction; this frame holds linear light. Make the profile from a linear blank.';
  if (its === 'scene-linear')
    return 'The profile was made from linear light; this frame is coded for display, and a tone curve or shading correction laid on by the camera is not undone. Develop both alike, or make the profile from a blank saved as this frame was.';
  if (its === 'response-recovered')
    return 'The profile was made from a frame read by its camera’s response; this frame is read without one, so the gains do not fit where a tone curve bends. Hand in the same response, or make the profile anew without it.';
  return 'The profile and this frame were brought to light by different means, so the gains may not fit. Make the profile from a blank saved as this frame was.';
}

/** Stops of exposure less of one frame than of the other matter where a curve lies between light and code. */
function exposureUnderCurve(own: Exposure | null, its: Exposure | null): string | null {
  const [a, b] = [stopsOf(own), stopsOf(its)];
  if (a === null || b === null || Math.abs(a - b) <= OTHER_EXPOSURE_EV) return null;
  const stops = Math.abs(a - b).toFixed(1);
  return `The frame was exposed ${stops} stops ${a > b ? 'more' : 'less'} than the blank: where the camera laid on a tone curve, the gains of one exposure do not quite fit another. Linear files are free of this.`;
}

/** Stops of light that reaches the file, but for a constant; `null` where the file says too little. */
function stopsOf(exposure: Exposure | null): number | null {
  if (!exposure?.seconds || !exposure.fNumber || !exposure.iso) return null;
  return Math.log2((exposure.seconds * exposure.iso) / exposure.fNumber ** 2);
}

function rounded(value: number): number {
  return Math.round(value * 10) / 10;
}
