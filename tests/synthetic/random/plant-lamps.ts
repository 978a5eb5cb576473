import { shiftedLight } from '../studio/colour-shift.ts';
import type { Draws } from './draws.ts';
import type { Planter } from './planter.ts';
import { withLamps } from './take-out.ts';

/** Lights and what they aim at, slid away together. */
export const plantOffCentre: Planter = (set, draws, leads) => {
  const { right, down } = someWay(draws, leads ? [0.4, 0.9] : [0.1, 0.2]);
  const [rightMm, downMm] = [right * set.frameWidthMm, down * set.frameWidthMm];
  const slid = withLamps(set, (lamp) => ({
    xMm: lamp.xMm + rightMm,
    yMm: lamp.yMm + downMm,
    aimXMm: lamp.aimXMm + rightMm,
    aimYMm: lamp.aimYMm + downMm,
  }));
  const mean = (figure: (lamp: (typeof slid.lamps)[number]) => number) =>
    slid.lamps.reduce((sum, lamp) => sum + figure(lamp), 0) / slid.lamps.length / set.frameWidthMm;
  return {
    set: slid,
    facts: {
      kind: 'off-centre',
      rightFrameWidths: mean((lamp) => lamp.xMm),
      downFrameWidths: mean((lamp) => lamp.yMm),
    },
  };
};

/** Lights brought up to the background, their places kept; two of them also nearer to each other. */
export const plantTooClose: Planter = (set, { between, chance }) => {
  const widths = set.lamps.length === 2 ? between(0.6, 0.8) : between(0.6, 1.2);
  const sideWidths = between(0.3, 0.55);
  const { frameWidthMm } = set;
  const tightness = between(1, 4);
  const narrowed = chance(0.6) ? { beam: { kind: 'cosine-power', power: tightness } as const } : {};
  const close = withLamps(set, (lamp, i) => {
    const distanceMm = widths * frameWidthMm;
    const power = lamp.power * (distanceMm / lamp.distanceMm) ** 2;
    if (set.lamps.length === 1) return { ...narrowed, distanceMm, power };
    const middleMm = 0.5 * (set.lamps[0]!.xMm + set.lamps[1]!.xMm);
    return { ...narrowed, distanceMm, power, xMm: middleMm + (i === 0 ? -1 : 1) * sideWidths * frameWidthMm };
  });
  return { set: close, facts: { kind: 'too-close', distanceFrameWidths: widths } };
};

/** One light turned away; a beam too wide to matter is narrowed first. */
export const plantAimedOff: Planter = (set, draws, leads) => {
  const { between, chance, either } = draws;
  const turned = either(set.lamps.map((_, i) => i));
  const { right, down } = someWay(draws, leads ? [0.6, 1.1] : [0.2, 0.35]);
  const beam = chance(0.3)
    ? ({ kind: 'flat-topped', halfDeg: between(18, 26), softDeg: between(3, 6) } as const)
    : ({ kind: 'cosine-power', power: between(2.5, 4) } as const);
  const { frameWidthMm } = set;
  const aimed = withLamps(set, (lamp, i) => ({
    ...(leads && { beam }),
    ...(i === turned && {
      aimXMm: lamp.aimXMm + right * frameWidthMm,
      aimYMm: lamp.aimYMm + down * frameWidthMm,
    }),
  }));
  const { aimXMm, aimYMm } = aimed.lamps[turned]!;
  return {
    set: aimed,
    facts: {
      kind: 'aimed-off',
      lamp: turned,
      rightFrameWidths: aimXMm / frameWidthMm,
      downFrameWidths: aimYMm / frameWidthMm,
    },
  };
};

export const plantUnequalLamps: Planter = (set, { between, either }, leads) => {
  const drawnStops = leads ? between(0.4, 1.5) : between(0.12, 0.25);
  const weaker = either([0, 1] as const);
  const unequal = withLamps(set, (lamp, i) => (i === weaker ? { power: lamp.power * 2 ** -drawnStops } : {}));
  const stops = Math.log2(unequal.lamps[1 - weaker]!.power / unequal.lamps[weaker]!.power);
  return { set: unequal, facts: { kind: 'unequal-lamps', weaker, stops } };
};

export const plantUnequalColour: Planter = (set, { between, either }, leads) => {
  const mired = leads ? between(18, 70) : between(8, 12);
  const duv = between(-0.003, 0.003);
  const warmer = either([0, 1] as const);
  const unequal = withLamps(set, (lamp, i) =>
    i === warmer ? { colour: shiftedLight(lamp.colour, mired, duv) } : {},
  );
  return { set: unequal, facts: { kind: 'unequal-colour', warmer, mired, duv } };
};

/** Any way, but mostly sideways, as there is more room. */
function someWay({ between, sign }: Draws, [least, most]: readonly [number, number]) {
  const widths = between(least, most);
  const angle = (between(-50, 50) * Math.PI) / 180;
  return { right: sign() * widths * Math.cos(angle), down: widths * Math.sin(angle) };
}
