import { facePoints } from './face-points.ts';
import { lightThrown, placedFace } from './light-thrown.ts';
import type { LitSet, SetLight } from './lit-set.ts';
import { throwFigures } from './throw-figures.ts';

/** Light at a spot of the frame, frame widths about its middle. */
export type LightAt = (x: number, y: number) => number;

/** Light of one lamp as the camera sees it on the background. */
export function seenLight(set: LitSet, light: SetLight): LightAt {
  const figures = throwFigures(set, light);
  const face = placedFace(figures, facePoints(light.face, light.distance));
  const strength = 2 ** light.strengthEv;
  const spot = { x: new Float64Array(1), y: new Float64Array(1) };
  const thrown = new Float64Array(1);
  return (x, y) => {
    spot.x[0] = x;
    spot.y[0] = y;
    lightThrown(figures, face, spot, thrown);
    return strength * thrown[0]!;
  };
}
