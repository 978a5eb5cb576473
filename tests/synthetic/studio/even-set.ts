import { type Background, plainLamp, type StudioSet } from './studio-set.ts';

export const EVEN_PANEL: Extract<Background, { kind: 'panel' }> = {
  kind: 'panel',
  widthMm: 800,
  heightMm: 600,
  carriesMm: Number.POSITIVE_INFINITY,
  rippleEv: 0,
  pitchMm: 50,
  colour: { kind: 'daylight', kelvin: 5500 },
};

/** A set as even as light itself can be: a far panel of flat light, for tests of what is laid over it. */
export const EVEN_SET: StudioSet = {
  frameWidthMm: 600,
  frameHeightMm: 400,
  cameraDistanceMm: 1500,
  background: EVEN_PANEL,
  lamps: [],
  spill: null,
  lens: null,
  whiteBalance: { kind: 'daylight', kelvin: 5500 },
  exposure: { factor: 0.5 },
};

/** One round light behind a thick sheet. */
export const SHEET_SET: StudioSet = {
  ...EVEN_SET,
  background: { kind: 'sheet', forwardShare: 0, lobeDeg: 25 },
  lamps: [plainLamp({ distanceMm: 900 })],
};
