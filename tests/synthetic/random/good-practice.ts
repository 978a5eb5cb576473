import type { Setup } from '../../../src/engine/setup.ts';
import { shiftedLight } from '../studio/colour-shift.ts';
import type { LightColour } from '../studio/light-colour.ts';
import type { Background, Beam, LampFace, StudioLamp, StudioSet } from '../studio/studio-set.ts';
import type { Draws } from './draws.ts';

export type Arrangement = Setup['arrangement'];

/** Nothing is ever exact: places, aims and powers are off by a little even where nobody errs. */
const PLACE_WIDTHS = 0.03;
const POWER_EV = 0.03;
const LENS_EV = 0.03;

export interface GoodPracticeOptions {
  readonly arrangement: Arrangement;
  readonly light: 'flash' | 'continuous';
  /** Height ÷ width of the frame. */
  readonly aspect: number;
}

/** A set without a fault to speak of: lights back, centred, aimed and equal, a thick sheet, a good lens, no spill. */
export function goodPractice({ arrangement, light, aspect }: GoodPracticeOptions, draws: Draws): StudioSet {
  const { between } = draws;
  const frameWidthMm = between(300, 1200);
  const colour = lightColour(light, draws);
  return {
    frameWidthMm,
    frameHeightMm: frameWidthMm * aspect,
    cameraDistanceMm: frameWidthMm * between(1.5, 4),
    background: backgroundOf(arrangement, frameWidthMm, frameWidthMm * aspect, colour, draws),
    lamps: lampsOf(arrangement, frameWidthMm, colour, draws),
    spill: null,
    lens: { naturalFall: false, mechanicalEv: between(0, LENS_EV) },
    whiteBalance: shiftedLight(colour, between(-3, 3)),
    exposure: { peak: between(0.5, 0.8) },
  };
}

function lightColour(light: 'flash' | 'continuous', { between, either }: Draws): LightColour {
  const kelvin = light === 'flash' ? between(5300, 5900) : either([between(3000, 3400), between(4800, 6500)]);
  return { kind: 'planckian', kelvin, duv: between(-0.001, 0.004) };
}

function lampsOf(
  arrangement: Arrangement,
  widthMm: number,
  colour: LightColour,
  draws: Draws,
): readonly StudioLamp[] {
  if (arrangement === 'panel') return [];
  const { between } = draws;
  const near = () => widthMm * between(-PLACE_WIDTHS, PLACE_WIDTHS);
  const beam = beamOf(draws);
  const face = faceOf(widthMm, draws);
  const lamp = (xMm: number, distanceMm: number, power: number): StudioLamp => ({
    xMm,
    yMm: near(),
    distanceMm,
    aimXMm: near(),
    aimYMm: near(),
    face,
    beam,
    power,
    colour,
  });
  if (arrangement !== 'two-lamps') return [lamp(near(), widthMm * between(2, 2.5), 1)];
  const distanceMm = widthMm * between(1.3, 2.2);
  // flattest between 0.45 and 0.5 of the distance either side (cos⁴ to cos³); tighter beams want a little more
  const sideMm = distanceMm * between(0.45, 0.55);
  const apartEv = between(-POWER_EV, POWER_EV);
  return [lamp(near() - sideMm, distanceMm, 1), lamp(near() + sideMm, distanceMm, 2 ** apartEv)];
}

function beamOf({ between, chance }: Draws): Beam {
  return chance(0.3)
    ? { kind: 'flat-topped', halfDeg: between(28, 45), softDeg: between(3, 7) }
    : { kind: 'cosine-power', power: between(1, 3) };
}

function faceOf(widthMm: number, { between, chance }: Draws): LampFace {
  const acrossMm = widthMm * between(0.1, 0.5);
  return chance(0.5)
    ? { kind: 'disc', diameterMm: acrossMm }
    : { kind: 'rectangle', widthMm: acrossMm, heightMm: acrossMm * between(0.6, 1.4) };
}

function backgroundOf(
  arrangement: Arrangement,
  widthMm: number,
  heightMm: number,
  colour: LightColour,
  { between }: Draws,
): Background {
  if (arrangement === 'behind-sheet')
    return { kind: 'sheet', forwardShare: between(0, 0.02), lobeDeg: between(25, 35) };
  if (arrangement !== 'panel') return { kind: 'wall' };
  const panelWidthMm = widthMm * between(1.1, 1.5);
  return {
    kind: 'panel',
    widthMm: panelWidthMm,
    heightMm: heightMm * between(1.1, 1.5),
    carriesMm: panelWidthMm * between(3, 6),
    rippleEv: between(0, 0.02),
    pitchMm: widthMm * between(0.05, 0.12),
    colour,
  };
}
