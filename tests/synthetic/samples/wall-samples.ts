import { plainLamp, type StudioSet } from '../studio/studio-set.ts';
import type { Sample } from './sample.ts';
import {
  AS_DEEP_PNG,
  AS_JPEG,
  DAYLIGHT,
  SHEET_SET,
  SHEET_SETUP,
  STEADY_EXIF,
  withLamps,
  withoutLens,
  withoutSpill,
} from './tumbler-studio.ts';

const WALL_SET: StudioSet = {
  ...SHEET_SET,
  frameWidthMm: 900,
  frameHeightMm: 600,
  background: { kind: 'wall' },
};

const oneSided: StudioSet = {
  ...WALL_SET,
  lamps: [
    plainLamp({ xMm: -750, aimXMm: -150, distanceMm: 1100, beam: { kind: 'cosine-power', power: 1.5 } }),
  ],
  spill: { level: 0.045, colour: { kind: 'daylight', kelvin: 9000 }, slopeEv: 0.6, towardDeg: 0 },
};

const head = { distanceMm: 900, face: { kind: 'rectangle', widthMm: 300, heightMm: 300 } } as const;

const unequal: StudioSet = {
  ...WALL_SET,
  lamps: [
    plainLamp({ ...head, xMm: -650, aimXMm: -150 }),
    plainLamp({
      ...head,
      xMm: 650,
      aimXMm: 150,
      power: 0.62,
      colour: { kind: 'daylight', kelvin: 5000, duv: 0.002 },
    }),
  ],
};

const nearlyPerfect: StudioSet = {
  ...SHEET_SET,
  background: { kind: 'wall' },
  lamps: [-1, 1].map((side) =>
    plainLamp({
      xMm: side * 700,
      aimXMm: side * 250,
      distanceMm: 1400,
      face: { kind: 'rectangle', widthMm: 300, heightMm: 300 },
      beam: { kind: 'cosine-power', power: 1 },
      power: side < 0 ? 1 : 0.99,
    }),
  ),
};

const panel: StudioSet = {
  ...SHEET_SET,
  background: {
    kind: 'panel',
    widthMm: 600,
    heightMm: 400,
    carriesMm: 330,
    rippleEv: 0.02,
    pitchMm: 60,
    colour: { kind: 'daylight', kelvin: 5600, duv: 0.004 },
  },
};

export const WALL_SAMPLES: readonly Sample[] = [
  {
    ...AS_DEEP_PNG,
    file: 'one-side-dark-and-cool.png',
    title: 'One side dark and cool',
    story:
      'A grey morning: the head bounces off the wall from the left, the window does the little there is right.',
    setup: {
      ...SHEET_SETUP,
      arrangement: 'bounced',
      frameWidthMm: 900,
      lampDistanceMm: [1100],
      room: { leftMm: 1200, rightMm: 1200, upMm: 900, downMm: 900, reachMm: 2500 },
    },
    set: oneSided,
    causes: [
      {
        kind: 'aimed-off',
        says: 'light 750 mm left, aimed 150 mm left of the middle; cured by aiming at the middle',
        cured: withLamps(oneSided, () => ({ aimXMm: 0 })),
      },
      {
        kind: 'off-centre',
        says: 'cured by standing the light in the middle',
        cured: withLamps(oneSided, () => ({ xMm: 0, aimXMm: 0 })),
      },
      {
        kind: 'stray-light',
        says: 'window light of 9000 K, 0.6 EV over a frame width, growing to the right',
        cured: withoutSpill(oneSided),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(oneSided) },
    ],
    shouldFind:
      'a light off to the left, cool spill from the right, the lens’s corners; slide and turn the light to the right',
    seed: 201,
  },
  {
    ...AS_JPEG,
    file: 'two-unequal-lights.jpg',
    stored: { as: 'jpeg', quality: 96, chroma: '4:2:0' },
    exif: STEADY_EXIF,
    title: 'Two unequal lights',
    story: 'One of the two heads on the sweep is on its second tube: weaker, and warmer than its twin.',
    setup: {
      ...SHEET_SETUP,
      arrangement: 'two-lamps',
      light: 'continuous',
      frameWidthMm: 900,
      lampDistanceMm: [900, 900],
      lampWidthMm: 300,
      room: { leftMm: 1200, rightMm: 1200, upMm: 900, downMm: 900, reachMm: 2000 },
    },
    set: unequal,
    causes: [
      {
        kind: 'unequal-lamps',
        says: 'the right light has 0.62 of the left one’s power (0.69 EV)',
        cured: withLamps(unequal, () => ({ power: 1 })),
      },
      {
        kind: 'unequal-colour',
        says: 'the right light has 5000 K, Duv +0.002 more, the left one 5500 K',
        cured: withLamps(unequal, () => ({ colour: DAYLIGHT })),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(unequal) },
    ],
    shouldFind:
      'a right light that is weaker and warmer than the left one, the lens’s corners; bring the right light up',
    seed: 202,
  },
  {
    ...AS_DEEP_PNG,
    file: 'nearly-perfect.png',
    title: 'Nearly perfect',
    story:
      'Two equal heads, well back and half their distance to either side: the set that the catalogue was shot on.',
    setup: {
      ...SHEET_SETUP,
      arrangement: 'two-lamps',
      lampDistanceMm: [1400, 1400],
      lampWidthMm: 300,
      room: { leftMm: 1200, rightMm: 1200, upMm: 900, downMm: 900, reachMm: 2000 },
    },
    set: nearlyPerfect,
    causes: [
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(nearlyPerfect) },
      {
        kind: 'unequal-lamps',
        says: 'the right light has 0.99 of the left one’s power (0.014 EV)',
        cured: withLamps(nearlyPerfect, () => ({ power: 1 })),
      },
    ],
    shouldFind: 'even and neutral enough; nothing to move',
    seed: 203,
  },
  {
    ...AS_JPEG,
    file: 'light-panel.jpg',
    exif: STEADY_EXIF,
    title: 'Light panel',
    story: 'A panel lit from its two short edges serves as background for the smallest tumblers.',
    setup: {
      ...SHEET_SETUP,
      arrangement: 'panel',
      light: 'continuous',
      lampDistanceMm: [],
      lampWidthMm: null,
    },
    set: panel,
    causes: [{ kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(panel) }],
    shouldFind:
      'a panel hotter at its sides than in the middle, a slight green cast; frame tighter or correct',
    seed: 204,
  },
];
