import { lightThrown } from './light-thrown.ts';
import type { LitSet, SetLight } from './lit-set.ts';

/** Light at a spot of the frame, frame widths about its middle. */
export type LightAt = (x: number, y: number) => number;

/**
 * Light of one lamp as the camera sees it on the background, against an even surface of the same transmission or
 * reflectance. An even surface looks alike from everywhere; a sheet that scatters partly forward sends a lobe on
 * along each ray (von Mises–Fisher about the straight direction), which the camera meets where its line of sight
 * comes near the light: the hot spot.
 */
export function seenLight({ sheet, cameraDistance }: LitSet, light: SetLight): LightAt {
  const thrown = lightThrown(light);
  if (sheet === null || sheet.forwardShare === 0)
    return (x, y) => {
      let sum = 0;
      thrown(x, y, (part) => {
        sum += part;
      });
      return sum;
    };
  const concentration = 1 / sheet.lobeRad ** 2;
  // π times the lobe's density straight on: an even surface sends 1/π of its light into each direction
  const straightOn = concentration / (2 * -Math.expm1(-2 * concentration));
  const even = 1 - sheet.forwardShare;
  const lobe = sheet.forwardShare * straightOn;
  return (x, y) => {
    const sightLength = Math.hypot(x, y, cameraDistance);
    let sum = 0;
    thrown(x, y, (part, towardX, towardY, towardPlane, length) => {
      const cosine = (towardPlane * cameraDistance - towardX * x - towardY * y) / (length * sightLength);
      sum += part * (even + lobe * Math.exp(concentration * (cosine - 1)));
    });
    return sum;
  };
}
