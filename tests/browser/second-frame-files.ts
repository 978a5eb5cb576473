import { toPng } from '../synthetic/encode.ts';
import { lampOffSet, slidSet } from '../synthetic/random/other-takes.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { SHEET_SET } from '../synthetic/studio/even-set.ts';
import { studioField } from '../synthetic/studio/studio-field.ts';
import type { StudioSet } from '../synthetic/studio/studio-set.ts';

/** A sheet lit by one light, a window's spill from the left on it, and a lens that darkens the corners. */
const SET: StudioSet = {
  ...SHEET_SET,
  spill: { level: 0.08, colour: { kind: 'daylight', kelvin: 6500 }, slopeEv: 1.5, towardDeg: 180 },
  lens: { naturalFall: true, mechanicalEv: 0.5 },
  exposure: { peak: 0.7 },
};

const SETS: Record<string, () => StudioSet> = {
  'tumbler-wall.png': () => SET,
  'room-dark.png': () => lampOffSet(SET),
  'slid.png': () => slidSet(SET, 0.33),
};

/** One of the set's frames as a file: as shot, with the lights off, or with the camera slid a third to the right. */
export function setFrame(name: keyof typeof SETS & string): {
  name: string;
  mimeType: string;
  buffer: Buffer;
} {
  const { field } = studioField(SETS[name]!());
  const rendered = renderFrame(field, {
    ...{ widthPx: 480, heightPx: 320, bits: 16, curve: 'srgb' },
    ...{ electronsAtFull: 20_000, seed: 7 },
  });
  return { name, mimeType: 'image/png', buffer: Buffer.from(toPng(rendered)) };
}
