import { LUMINANCE, shiftedLight } from '../studio/colour-shift.ts';
import { type LightColour, type Rgb, rgbOfLight } from '../studio/light-colour.ts';
import { photographSet } from '../studio/photograph-set.ts';
import type { StudioSet } from '../studio/studio-set.ts';
import type { Draws } from './draws.ts';
import type { Planter } from './planter.ts';

/** What is left of the room's light where it was put out: at most half a per cent. */
export function withLittleSpill(set: StudioSet, draws: Draws): StudioSet {
  return withSpill(set, draws.between(0.0005, 0.0045), draws.between(-80, 80), 0.5, draws.between(0, 360));
}

/** Light of a window or of room lamps, clearly another colour than the lights'. */
export const plantStrayLight: Planter = (set, { between, chance }, leads) => {
  const spillShare = leads ? between(0.12, 0.3) : between(0.05, 0.08);
  const lightMired = 1e6 / lightOf(set).kelvin;
  // room lamps against daylight-coloured lights, a window against warm ones; now and then the other way
  const warmer = lightMired < 240 ? chance(0.7) : false;
  const mired = warmer
    ? between(60, Math.min(160, 400 - lightMired))
    : -between(45, Math.max(60, Math.min(160, lightMired - 100)));
  const [slopeEv, towardDeg] = [between(0.2, 2), between(0, 360)];
  return {
    set: withSpill(set, spillShare, mired, slopeEv, towardDeg),
    facts: { kind: 'stray-light', spillShare, mired, slopeEv, towardDeg },
  };
};

/** `share` of the light at the frame's middle. */
function withSpill(
  set: StudioSet,
  share: number,
  mired: number,
  slopeEv: number,
  towardDeg: number,
): StudioSet {
  const lit = photographSet({ ...set, spill: null, exposure: { factor: 1 } }).field(0.5, 0.5);
  const colour = shiftedLight(lightOf(set), mired);
  const perLevel = luminance(rgbOfLight(colour, set.whiteBalance));
  const level = (share / (1 - share)) * (luminance(lit) / perLevel);
  return { ...set, spill: { level, colour, slopeEv, towardDeg } };
}

const lightOf = ({ background, lamps }: StudioSet): LightColour =>
  background.kind === 'panel' ? background.colour : lamps[0]!.colour;

const luminance = (light: Rgb) => LUMINANCE[0] * light[0] + LUMINANCE[1] * light[1] + LUMINANCE[2] * light[2];
