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
  const shiftAt = tabulated((share) => colourShift(share * colour.cornerMired, share * colour.cornerDuv));
  return (x, y) => shiftAt(((x - 0.5) ** 2 + ((y - 0.5) * tall) ** 2) / cornerSquare);
}

const STEPS = 64;

/** A smooth curve over 0 to 1 read from 65 of its points, log-linearly between them. */
function tabulated(curve: (share: number) => Rgb): (share: number) => Rgb {
  const table = Array.from({ length: STEPS + 2 }, (_, i) => curve(i / STEPS).map(Math.log) as unknown as Rgb);
  return (share) => {
    const step = Math.min(STEPS, Math.floor(share * STEPS));
    const t = share * STEPS - step;
    const [a, b] = [table[step]!, table[step + 1]!];
    const at = (i: 0 | 1 | 2) => Math.exp(a[i] + t * (b[i] - a[i]));
    return [at(0), at(1), at(2)];
  };
}
