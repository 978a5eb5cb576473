import { expect, test } from 'vitest';
import { causeSentence } from '../../../src/engine/diagnosis/cause-sentences.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import type { ModelledCause } from '../../../src/engine/lamps/taken-out.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { about, foundLight, setReadingOf } from './set-reading-of.ts';

const MM_600 = { frameWidthMm: 600 };
const at = (right: number, down: number, plusMinus = 0.05) =>
  foundLight({ right: about(right, plusMinus), down: about(down, plusMinus) });
const aimed = (right: number, down: number) =>
  foundLight({ aimErrorRight: about(right), aimErrorDown: about(down) });
const balance = (ev: number, mired: number) => ({ balance: { ev: about(ev), mired: about(mired) } });
const spill = (share: number, plusMinus: number, mired: number, fromDeg: number) => ({
  spill: { share: about(share, plusMinus), mired: about(mired), fromDeg },
});
const rise = (acrossEv: number, downEv: number) => ({ panelRise: { acrossEv, downEv } });

const SENTENCES: readonly [ModelledCause, Partial<SetReading>, Partial<Setup>, string][] = [
  [
    'off-centre',
    { lights: [at(-0.18, 0.01)] },
    MM_600,
    'The light stands about 11 cm to the left of the frame’s centre (give or take 3 cm).',
  ],
  [
    'off-centre',
    { lights: [at(0.05, -0.04, 0.02)] },
    MM_600,
    'The light stands about 3 cm to the right and 2 cm up from the frame’s centre (give or take 1 cm).',
  ],
  [
    'off-centre',
    { lights: [at(0, 0.2)] },
    MM_600,
    'The light stands about 12 cm below the frame’s centre (give or take 3 cm).',
  ],
  [
    'off-centre',
    { lights: [at(-0.2, -0.1)] },
    {},
    'The light stands about 20 % of the frame’s width to the left and 10 % up from its centre (give or take 5 %).',
  ],
  [
    'off-centre',
    { lights: [at(-0.5, 0), at(0.9, 0)] },
    MM_600,
    'The two lights together stand about 12 cm to the right of the frame’s centre (give or take 2 cm).',
  ],
  [
    'too-close',
    {},
    MM_600,
    'The light is close for the width of the frame: it falls off by 0.4 stop more than it needs to.',
  ],
  [
    'too-close',
    { lights: [at(-1, 0), at(1, 0)] },
    MM_600,
    'The lights are close for the width of the frame: they fall off by 0.4 stop more than they need to.',
  ],
  [
    'aimed-off',
    { lights: [aimed(0.2, 0)] },
    MM_600,
    'The light is aimed about 12 cm to the right of where it would light evenly.',
  ],
  [
    'aimed-off',
    { lights: [aimed(0.05, 0), aimed(0, -0.3)] },
    MM_600,
    'The right light is aimed about 18 cm above where it would light evenly.',
  ],
  [
    'aimed-off',
    { lights: [aimed(-0.3, 0), aimed(0, 0.1)] },
    MM_600,
    'The left light is aimed about 18 cm to the left of where it would light evenly.',
  ],
  [
    'unequal-lamps',
    balance(0.6, 0),
    {},
    'The left light is 0.6 stop stronger than the right one (give or take 0.01 stop).',
  ],
  [
    'unequal-lamps',
    balance(-1.2, 0),
    {},
    'The right light is 1.2 stops stronger than the left one (give or take 0.01 stop).',
  ],
  [
    'unequal-colour',
    balance(0, 12),
    {},
    'The left light is warmer than the right one by 12 mired (about 340 K at 5500 K).',
  ],
  [
    'unequal-colour',
    balance(0, -12),
    {},
    'The right light is warmer than the left one by 12 mired (about 340 K at 5500 K).',
  ],
  [
    'hot-spot',
    {},
    {},
    'The sheet lets part of the light straight through: it is hottest where you look into the light.',
  ],
  ['hot-spot', rise(0.3, 0.1), {}, 'The panel is hotter at its sides than in its middle: it takes 0.4 stop.'],
  [
    'hot-spot',
    rise(0.1, 0.3),
    {},
    'The panel is hotter at its top and bottom than in its middle: it takes 0.4 stop.',
  ],
  [
    'hot-spot',
    rise(0.3, -0.1),
    {},
    'The panel is hotter at its sides than in its middle: it takes 0.4 stop.',
  ],
  [
    'hot-spot',
    rise(-0.3, 0.1),
    {},
    'The panel is hotter in its middle than at its sides: it takes 0.4 stop.',
  ],
  [
    'hot-spot',
    rise(0, -0.3),
    {},
    'The panel is hotter in its middle than at its top and bottom: it takes 0.4 stop.',
  ],
  ['hot-spot', rise(-0.3, -0.2), {}, 'The panel is hotter in its middle than all round: it takes 0.4 stop.'],
  [
    'stray-light',
    spill(0.12, 0.01, 70, 270),
    {},
    'Light of another colour spills in, most from the top: 12 % of the light in the middle, warmer by 70 mired (about 1530 K at 5500 K).',
  ],
  [
    'stray-light',
    spill(0.12, 0.03, -20, 0),
    {},
    'Light of another colour spills in, most from the right: about 12 % of the light in the middle, cooler by 20 mired (about 680 K at 5500 K); how much of it there is one frame can’t tell well, one with the lights off would.',
  ],
  [
    'tinted-on-one-side',
    { tint: { mired: 9, towardDeg: 180 } },
    {},
    'The sheet itself is warmer towards the left, by 9 mired (about 260 K at 5500 K): it is not the light.',
  ],
  [
    'tinted-on-one-side',
    { tint: { mired: 9, towardDeg: 45 } },
    { arrangement: 'bounced' },
    'The background itself is warmer towards the bottom right, by 9 mired (about 260 K at 5500 K): it is not the light.',
  ],
  [
    'lens-falloff',
    { lensCornerEv: about(0.34) },
    {},
    'The lens takes 0.3 stop in the corners (give or take 0.01 stop).',
  ],
  [
    'lens-colour',
    { lensCornerMired: about(4) },
    {},
    'The lens tints the corners: warmer by 4 mired (about 120 K at 5500 K).',
  ],
  [
    'lens-colour',
    { lensCornerMired: about(-4) },
    {},
    'The lens tints the corners: cooler by 4 mired (about 120 K at 5500 K).',
  ],
];

test.each(SENTENCES)('%s of %j, set up as %j', (cause, found, setup, says) => {
  expect(causeSentence(cause, setReadingOf(found), { ...UNKNOWN_SETUP, ...setup }, 0.4)).toBe(says);
});

test('causeSentence hands out, unrounded and in its order, every length that it gives', () => {
  for (const [cause, found, setup, says] of SENTENCES) {
    const toldMm: number[] = [];
    causeSentence(cause, setReadingOf(found), { ...UNKNOWN_SETUP, ...setup }, 0.4, toldMm);
    const inWords = [...says.matchAll(/(\d+) cm/g)].map(([, cm]) => Number(cm));
    expect(toldMm.map((mm) => Math.round(mm / 10))).toEqual(inWords);
  }
  const toldMm: number[] = [];
  causeSentence(
    'off-centre',
    setReadingOf({ lights: [at(0.05, -0.04, 0.02)] }),
    { ...UNKNOWN_SETUP, ...MM_600 },
    0.4,
    toldMm,
  );
  expect(toldMm.map((mm) => mm.toFixed(3))).toEqual(['30.000', '24.000', '12.000']);
});
