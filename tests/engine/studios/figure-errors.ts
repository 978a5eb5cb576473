import { flickerWave } from '../../../src/engine/diagnosis/flicker-wave.ts';
import type { Estimate } from '../../../src/engine/lamps/estimate.ts';
import { locusPlace, uvPrimeOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import type { PlantedCause, PlantedKind } from '../../synthetic/random/planted-cause.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import { type LightColour, rgbOfLight } from '../../synthetic/studio/light-colour.ts';
import type { StudioReading } from './studio-frames.ts';

/** What was planted and not found at all is off by more than any limit. */
const NOT_FOUND = Number.POSITIVE_INFINITY;

/** Where one light was found against where it stands, in frame widths. */
export interface PlaceError {
  readonly rightWidths: number;
  readonly downWidths: number;
  readonly plusMinusRight: number;
  readonly plusMinusDown: number;
}

export function placeErrors({ set: truth }: RandomStudio, { set }: Pick<StudioReading, 'set'>): PlaceError[] {
  return truth.lamps.map(({ xMm, yMm }, lamp) => {
    const found = set?.lights[lamp];
    if (!found) return { rightWidths: NOT_FOUND, downWidths: NOT_FOUND, plusMinusRight: 0, plusMinusDown: 0 };
    return {
      rightWidths: found.right.value - xMm / truth.frameWidthMm,
      downWidths: found.down.value - yMm / truth.frameWidthMm,
      plusMinusRight: found.right.plusMinus,
      plusMinusDown: found.down.plusMinus,
    };
  });
}

/** Spill that weighs and has a colour of its own: less is worth no figure. */
const LEAST_SPILL_SHARE = 0.05;
const LEAST_SPILL_MIRED = 40;

/** A share of spill that its own ± leaves this doubtful is not claimed. */
const CLAIMED = 0.2;

/** The spill's share of the light that was planted; `null` where there is none to measure. */
export function plantedSpillShare(studio: RandomStudio): number | null {
  const planted = plantedOf(studio, 'stray-light');
  if (planted === null || planted.spillShare < LEAST_SPILL_SHARE) return null;
  return Math.abs(planted.mired) < LEAST_SPILL_MIRED ? null : planted.spillShare;
}

/** Error of the spill's share, as a part of what was planted. */
export function spillError(plantedShare: number, { set }: Pick<StudioReading, 'set'>): number {
  return set === null ? NOT_FOUND : set.spill.share.value / plantedShare - 1;
}

/** Whether the reading claims to know the spill's share; else it can't tell. */
export function isSpillClaimed({ set }: Pick<StudioReading, 'set'>): boolean {
  return set !== null && isSurerThan(CLAIMED, set.spill.share);
}

const isSurerThan = (part: number, { value, plusMinus }: Estimate) => plusMinus < part * value;

/** Error of the loss in the corners that was planted, in stops; `null` where none was. */
export function lensError(studio: RandomStudio, { set }: Pick<StudioReading, 'set'>): number | null {
  const planted = plantedOf(studio, 'lens-falloff');
  if (planted === null) return null;
  return set === null ? NOT_FOUND : set.lensCornerEv.value - planted.cornerEv;
}

/** Error of the bands' period, as a part of what was planted; `null` where none were. */
export function bandPeriodError(
  studio: RandomStudio,
  { frame }: Pick<StudioReading, 'frame'>,
): number | null {
  const planted = plantedOf(studio, 'bands');
  if (planted === null) return null;
  const found = flickerWave(frame.grid);
  if (found === null || found.lie !== (planted.run === 'across')) return NOT_FOUND;
  const { widthPx, heightPx } = frame.measurement.frame;
  const share = found.wave.periodLines / (found.lie ? heightPx : widthPx);
  return share / (planted.periodLines / planted.ofLines) - 1;
}

/**
 * Error of how much warmer one of two lights is, in mired; `null` where they were not made unequal in colour. Warmth is
 * told against the white of the file: of two lamps in a frame balanced for the cooler one's 3400 K, the one that is 67
 * mired warmer and 0.0024 greener is recorded 77 warmer.
 */
export function unequalColourError(studio: RandomStudio, { set }: Pick<StudioReading, 'set'>): number | null {
  if (plantedOf(studio, 'unequal-colour') === null) return null;
  const { lamps, whiteBalance } = studio.set;
  const [first, second] = lamps.map(({ colour }) => recordedMired(colour, whiteBalance));
  return set?.balance ? set.balance.mired.value - (first! - second!) : NOT_FOUND;
}

/** A light's warmth as a camera balanced for `white` records it. */
function recordedMired(light: LightColour, white: LightColour): number {
  return locusPlace(...uvPrimeOfXyz(xyzOfSrgbLight(rgbOfLight(light, white)))).mired;
}

function plantedOf<K extends PlantedKind>({ planted }: RandomStudio, kind: K) {
  const found = planted.find((cause) => cause.kind === kind);
  return (found as Extract<PlantedCause, { readonly kind: K }> | undefined) ?? null;
}
