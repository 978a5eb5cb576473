import { colourShift } from './colour-shift.ts';
import type { Rgb } from './light-colour.ts';
import type { StudioSet } from './studio-set.ts';

/** A tint of the lens that grows as the square of the distance from the frame's middle. */
export interface LensColour {
  readonly cornerMired: number;
  readonly cornerDuv: number;
}

const NONE: Rgb = [1, 1, 1];

/** What the lens's tint does to each channel at a place of the frame; neutral light keeps its luminance. */
export function lensTint({ lens, frameWidthMm, frameHeightMm }: StudioSet): (x: number, y: number) => Rgb {
  const colour = lens?.colour;
  if (!colour) return () => NONE;
  const tall = frameHeightMm / frameWidthMm;
  const cornerSquare = 0.25 * (1 + tall * tall);
  return (x, y) => {
    const share = ((x - 0.5) ** 2 + ((y - 0.5) * tall) ** 2) / cornerSquare;
    return colourShift(share * colour.cornerMired, share * colour.cornerDuv);
  };
}
