import { plainLamp, type StudioSet } from '../studio/studio-set.ts';
import type { Sample } from './sample.ts';
import {
  AS_JPEG,
  centred,
  FLASH_EXIF,
  SHEET_SET,
  SHEET_SETUP,
  STEADY_EXIF,
  withLamps,
  withoutLens,
  withoutSpill,
  withoutTint,
} from './tumbler-studio.ts';

const offCentre: StudioSet = { ...SHEET_SET, lamps: [plainLamp({ xMm: -110, yMm: 25 })] };

const tooClose: StudioSet = {
  ...SHEET_SET,
  lamps: [plainLamp({ distanceMm: 320, face: { kind: 'disc', diameterMm: 180 } })],
};

const farLamp = plainLamp({ distanceMm: 1200, face: { kind: 'rectangle', widthMm: 400, heightMm: 400 } });

const spilt: StudioSet = {
  ...SHEET_SET,
  lamps: [farLamp],
  spill: { level: 0.12, colour: { kind: 'planckian', kelvin: 3000 }, slopeEv: 1.6, towardDeg: 250 },
};

const tinted: StudioSet = {
  ...SHEET_SET,
  lamps: [farLamp],
  background: { kind: 'sheet', forwardShare: 0.08, lobeDeg: 28, tint: () => [1, 0.965, 0.86] },
};

const yellowedShare = (xMm: number) => 1 / (1 + Math.exp(xMm / 70));

const yellowed: StudioSet = {
  ...SHEET_SET,
  lamps: [farLamp],
  background: {
    kind: 'sheet',
    forwardShare: 0.08,
    lobeDeg: 28,
    tint: (xMm) => {
      const aged = yellowedShare(xMm);
      return [1 - 0.03 * aged, 1 - 0.06 * aged, 1 - 0.2 * aged];
    },
  },
};

const clipped: StudioSet = {
  ...SHEET_SET,
  lamps: [plainLamp({ xMm: 30, yMm: -20, distanceMm: 500 })],
  background: { kind: 'sheet', forwardShare: 0.35, lobeDeg: 18 },
  exposure: { peak: 1.35 },
};

export const SHEET_SAMPLES: readonly Sample[] = [
  {
    ...AS_JPEG,
    file: 'sheet-off-centre.jpg',
    title: 'Sheet lit off centre',
    story:
      'The head behind the sheet went down where the floor was clear, a hand to the left of the tumblers.',
    setup: SHEET_SETUP,
    set: offCentre,
    causes: [
      {
        kind: 'off-centre',
        says: 'light 110 mm left of the middle and 25 mm below it',
        cured: centred(offCentre),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(offCentre) },
    ],
    shouldFind:
      'a light that stands left of the middle and a little low, and close; slide it to the right and up',
    seed: 101,
    subjectFile: 'tumblers-before-the-sheet.jpg',
  },
  {
    ...AS_JPEG,
    file: 'light-too-close.jpg',
    title: 'Light too close',
    story: 'The bench stands against the wall, so the head was squeezed in a forearm behind the sheet.',
    setup: { ...SHEET_SETUP, lampDistanceMm: [320] },
    set: tooClose,
    causes: [
      {
        kind: 'too-close',
        says: 'light 320 mm behind a sheet of which 420 mm show; cured at 1500 mm',
        cured: withLamps(tooClose, () => ({ distanceMm: 1500 })),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(tooClose) },
    ],
    shouldFind: 'a light that stands too close; move it farther back, if the room allows',
    seed: 102,
  },
  {
    ...AS_JPEG,
    file: 'room-spill.png',
    stored: { as: 'png', bits: 8 },
    exif: STEADY_EXIF,
    title: 'Room spill',
    story: 'The ceiling light over the bench was left on; the rims of the tumblers go amber near the top.',
    setup: { ...SHEET_SETUP, light: 'continuous', lampDistanceMm: [1200], lampWidthMm: 400 },
    set: spilt,
    causes: [
      {
        kind: 'stray-light',
        says: 'light of 3000 K from above, 1.6 EV over a frame width',
        cured: withoutSpill(spilt),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(spilt) },
    ],
    shouldFind: 'spill from above, warmer than the light, and a warm cast; put the room light out',
    seed: 103,
  },
  {
    ...AS_JPEG,
    file: 'tinted-sheet.jpg',
    title: 'Tinted sheet',
    story: 'A new sheet from another roll: the light is as even as ever, yet every tumbler looks like tea.',
    setup: { ...SHEET_SETUP, lampDistanceMm: [1200], lampWidthMm: 400 },
    set: tinted,
    causes: [
      {
        kind: 'tinted-all-over',
        says: 'the sheet lets 96.5 % of green and 86 % of blue through',
        cured: withoutTint(tinted),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(tinted) },
    ],
    shouldFind: 'a warm tint, the same all over; set the white balance in the camera',
    seed: 104,
  },
  {
    ...AS_JPEG,
    file: 'sheet-yellowed-on-one-side.jpg',
    title: 'Sheet yellowed on one side',
    story: 'The old sheet has hung half in the window for three summers, and its left half shows it.',
    setup: { ...SHEET_SETUP, lampDistanceMm: [1200], lampWidthMm: 400 },
    set: yellowed,
    causes: [
      {
        kind: 'tinted-on-one-side',
        says: 'up to 20 % of blue and 6 % of green lost towards the left',
        cured: withoutTint(yellowed),
      },
      { kind: 'lens-falloff', says: 'cos⁴ and 0.02 EV beside it', cured: withoutLens(yellowed) },
    ],
    shouldFind: 'a sheet that is warmer to the left, hardly a slope in brightness; turn or change the sheet',
    seed: 105,
  },
  {
    ...AS_JPEG,
    file: 'clipped.jpg',
    exif: { ...FLASH_EXIF, fNumber: [8, 1] },
    title: 'Clipped',
    story: 'The background was pushed to pure white for the cover; nobody can say any more how even it is.',
    setup: { ...SHEET_SETUP, lampDistanceMm: [500] },
    set: clipped,
    causes: [
      {
        kind: 'clipped',
        says: 'exposed so that the hottest spot would need 1.35 times full scale',
        cured: { ...clipped, exposure: { peak: 0.62 } },
      },
      {
        kind: 'hot-spot',
        says: 'a thin sheet: 35 % of the light stays within a lobe of 18°',
        cured: { ...clipped, background: { kind: 'sheet', forwardShare: 0, lobeDeg: 18 } },
      },
      {
        kind: 'off-centre',
        says: 'light 30 mm right of the middle and 20 mm above it',
        cured: centred(clipped),
      },
    ],
    shouldFind:
      'clipping; figures are lower bounds; the sheet lets light straight through; expose down by a stop and shoot again',
    seed: 106,
  },
];
