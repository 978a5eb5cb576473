import { colourShift } from './colour-shift.ts';
import type { Rgb } from './light-colour.ts';
import type { SurfaceTint } from './studio-set.ts';

/** A sheet that colours neutral light alike all over; its clearest channel passes whole. */
export function tintedAllOver(mired: number, duv: number): SurfaceTint {
  const share = clearest(colourShift(mired, duv));
  return () => share;
}

export interface OneSidedTint {
  /** At the side, against the clear other side. */
  readonly mired: number;
  readonly duv: number;
  /** Towards the tinted side, clockwise from the right. */
  readonly towardDeg: number;
  /** From the frame's middle, where half of the tint is reached, to where nearly all of it is. */
  readonly softMm: number;
}

/** A sheet that has yellowed, or greened, towards one side. */
export function tintedOnOneSide({ mired, duv, towardDeg, softMm }: OneSidedTint): SurfaceTint {
  const angle = (towardDeg * Math.PI) / 180;
  const [right, down] = [Math.cos(angle), Math.sin(angle)];
  const full = clearest(colourShift(mired, duv)).map(Math.log);
  return (xMm, yMm) => {
    const aged = 1 / (1 + Math.exp((-4 * (xMm * right + yMm * down)) / softMm));
    return [Math.exp(aged * full[0]!), Math.exp(aged * full[1]!), Math.exp(aged * full[2]!)];
  };
}

function clearest(shift: Rgb): Rgb {
  const most = Math.max(...shift);
  return [shift[0] / most, shift[1] / most, shift[2] / most];
}
