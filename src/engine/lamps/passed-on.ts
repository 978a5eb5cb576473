import type { Spots } from './light-thrown.ts';
import type { LitSet, SourceColour } from './lit-set.ts';
import { rimShare } from './rim-share.ts';
import { tristimulus } from './tristimulus.ts';

const WHITE = tristimulus({ mired: 0, duv: 0 });

/**
 * Shares of X, Y and Z that surface, rim and lens let through at spots of the frame, written after each other. The
 * lens's is that of `lensShare`.
 */
export function passedOn({ lens, tint, rim, aspect }: LitSet, spots: Spots, into: Float64Array): void {
  const count = spots.x.length;
  const [cornerX, cornerZ] = lens === null ? NO_CHANGE : change(lens.corner);
  const cornerSquare = (1 + aspect * aspect) / 4;
  const [squareEv, fourthEv] = lens === null ? [0, 0] : [lens.squareEv, lens.fourthEv];
  for (let i = 0; i < count; i++) {
    const square = (spots.x[i]! ** 2 + spots.y[i]! ** 2) / cornerSquare;
    // natural logarithms as yet
    into[i] = cornerX * square;
    into[count + i] = -Math.LN2 * square * (squareEv + fourthEv * square);
    into[2 * count + i] = cornerZ * square;
  }
  if (tint !== null) {
    const mired = Math.hypot(tint.rightMired, tint.downMired);
    const [right, down] = mired === 0 ? [1, 0] : [tint.rightMired / mired, tint.downMired / mired];
    const [fullX, fullZ] = change({ mired, duv: tint.duvPerMired * mired });
    const lost = Math.LN2 * tint.lossEvPerMired * mired;
    for (let i = 0; i < count; i++) {
      const along = (spots.x[i]! - tint.x) * right + (spots.y[i]! - tint.y) * down;
      const reached = 1 / (1 + Math.exp((-4 * along) / tint.soft)) - 0.5;
      into[i]! += reached * fullX;
      into[count + i]! -= reached * lost;
      into[2 * count + i]! += reached * fullZ;
    }
  }
  const beside = rim === null ? null : rimShare(rim, aspect);
  for (let i = 0; i < count; i++) {
    const through = Math.exp(into[count + i]!) * (beside === null ? 1 : beside(spots.x[i]!, spots.y[i]!));
    into[count + i] = through;
    into[i] = through * Math.exp(into[i]!);
    into[2 * count + i] = through * Math.exp(into[2 * count + i]!);
  }
}

const NO_CHANGE = [0, 0] as const;

/** A change of colour as natural logarithms of X and Z at the same Y. */
function change(colour: SourceColour): readonly [x: number, z: number] {
  if (colour.mired === 0 && colour.duv === 0) return NO_CHANGE;
  const [x, , z] = tristimulus(colour);
  return [Math.log(x / WHITE[0]), Math.log(z / WHITE[2])];
}
