import { type FacePoints, facePoints } from './face-points.ts';
import { lightThrown, lightThrownSlopes, placedFace, type Spots } from './light-thrown.ts';
import type { LitSet, SetLight } from './lit-set.ts';
import { FIGURES, throwFigures } from './throw-figures.ts';

/** What one light of a set throws on fixed spots, whatever its strength. Each answer holds until the next is asked for. */
export interface ThrownAtSpots {
  of(set: LitSet, light: SetLight): Float64Array;
  /** Works out how the light changes with each of its figures. */
  about(set: LitSet, light: SetLight): void;
  /** Of a light next to the one that `about` was told, to first order in its figures. */
  near(set: LitSet, light: SetLight): Float64Array;
}

/** Keeps what it worked out until a figure that it follows from changes. */
export function thrownAtSpots(spots: Spots): ThrownAtSpots {
  const count = spots.x.length;
  const values = new Float64Array(count);
  const nextValues = new Float64Array(count);
  let slopes: Float64Array | null = null;
  let figures: Float64Array = new Float64Array(FIGURES).fill(Number.NaN);
  let points: FacePoints | null = null;
  let isSloped = false;
  const areHeld = (wanted: Float64Array, face: FacePoints) =>
    face === points && wanted.every((value, k) => value === figures[k]);
  return {
    of: (set, light) => {
      const wanted = throwFigures(set, light);
      const face = facePoints(light.face, light.distance);
      if (areHeld(wanted, face)) return values;
      lightThrown(wanted, placedFace(wanted, face), spots, values);
      [figures, points, isSloped] = [wanted, face, false];
      return values;
    },
    about: (set, light) => {
      const wanted = throwFigures(set, light);
      const face = facePoints(light.face, light.distance);
      if (isSloped && areHeld(wanted, face)) return;
      slopes ??= new Float64Array(FIGURES * count);
      lightThrownSlopes(wanted, placedFace(wanted, face), spots, values, slopes);
      [figures, points, isSloped] = [wanted, face, true];
    },
    near: (set, light) => {
      const next = throwFigures(set, light);
      let isMoved = false;
      for (let k = 0; k < FIGURES; k++) {
        if (next[k] === figures[k]) continue; // of a beam without an edge both are infinite
        const by = next[k]! - figures[k]!;
        const from = isMoved ? nextValues : values;
        for (let i = 0; i < count; i++) nextValues[i] = from[i]! + by * slopes![k * count + i]!;
        isMoved = true;
      }
      return isMoved ? nextValues : values;
    },
  };
}
