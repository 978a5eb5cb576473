import type { Setup } from '../../../src/engine/setup.ts';
import type { ExifFacts } from '../exif-block.ts';
import type { LightColour } from '../studio/light-colour.ts';
import type { StudioLamp, StudioSet } from '../studio/studio-set.ts';
import type { Sample } from './sample.ts';

export const DAYLIGHT: LightColour = { kind: 'daylight', kelvin: 5500 };

/** What the sets of the glass catalogue have in common: 42 cm of background, a long macro lens 1.5 m away. */
export const SHEET_SET: StudioSet = {
  frameWidthMm: 420,
  frameHeightMm: 280,
  cameraDistanceMm: 1500,
  background: { kind: 'sheet', forwardShare: 0.08, lobeDeg: 28 },
  lamps: [],
  spill: null,
  lens: { naturalFall: true, mechanicalEv: 0.02 },
  whiteBalance: DAYLIGHT,
  exposure: { peak: 0.62 },
};

export const SHEET_SETUP: Setup = {
  arrangement: 'behind-sheet',
  light: 'flash',
  frameWidthMm: 420,
  lampDistanceMm: [600],
  lampWidthMm: 180,
  cameraDistanceMm: 1500,
  room: { leftMm: 500, rightMm: 500, upMm: 400, downMm: 400, reachMm: 1500 },
};

export const FLASH_EXIF: ExifFacts = {
  exposureTime: [1, 125],
  fNumber: [11, 1],
  iso: 100,
  focalLengthMm: 105,
  takenAt: '2026:03:02 09:30:00',
  colourSpace: 1,
};

export const STEADY_EXIF: ExifFacts = { ...FLASH_EXIF, exposureTime: [1, 25], fNumber: [8, 1] };

/** A frame of 900 × 600 with the noise of a well of 30 000 electrons, stored as JPEG. */
export const AS_JPEG = {
  widthPx: 900,
  heightPx: 600,
  electronsAtFull: 30_000,
  stored: { as: 'jpeg', quality: 96, chroma: '4:4:4' },
  exif: FLASH_EXIF,
} as const satisfies Partial<Sample>;

/** A frame of 600 × 400 at 16 bits: small enough to keep, deep enough to measure. */
export const AS_DEEP_PNG = {
  widthPx: 600,
  heightPx: 400,
  electronsAtFull: 30_000,
  stored: { as: 'png', bits: 16 },
  exif: FLASH_EXIF,
} as const satisfies Partial<Sample>;

export const withLamps = (set: StudioSet, change: (lamp: StudioLamp) => Partial<StudioLamp>): StudioSet => ({
  ...set,
  lamps: set.lamps.map((lamp) => ({ ...lamp, ...change(lamp) })),
});

export const centred = (set: StudioSet) => withLamps(set, () => ({ xMm: 0, yMm: 0, aimXMm: 0, aimYMm: 0 }));

export const withoutSpill = (set: StudioSet): StudioSet => ({ ...set, spill: null });

export const withoutLens = (set: StudioSet): StudioSet => ({ ...set, lens: null });

export const withoutTint = (set: StudioSet): StudioSet => ({
  ...set,
  background: { ...set.background, tint: () => [1, 1, 1] },
});
