import { randomField } from '../../synthetic/known-field.ts';
import type { SubjectScene } from '../../synthetic/subject-scene.ts';
import { filter, glass, joined, opaque, ring, roundBox } from '../../synthetic/subjects.ts';

export const WIDTH_PX = 720;
export const HEIGHT_PX = 480;

const lit = randomField(4101, { family: 'quadratic', spreadEv: 1, peak: 0.8 }).field;

/** A white thing's light against the background beside it. */
const WHITE = 2 ** -0.045;

const body = roundBox(360, 250, 95, 130, 40);

const base: SubjectScene = { field: lit, widthPx: WIDTH_PX, heightPx: HEIGHT_PX, subjects: [] };

const shadow = (x: number, y: number) =>
  1 - 0.45 * Math.exp(-0.5 * (((x - 470) / 90) ** 2 + ((y - 330) / 55) ** 2));

const speck = (x: number, y: number, atX: number, atY: number, radius: number) =>
  Math.exp((-0.5 * ((x - atX) ** 2 + (y - atY) ** 2)) / radius ** 2);

/** Weave and some dust on the background itself. */
const texture = (x: number, y: number) =>
  (1 + 0.012 * Math.sin(x / 1.9 + 0.3 * Math.sin(y / 31)) * Math.sin(y / 2.3)) *
  (1 - 0.15 * speck(x, y, 120, 90, 2.2) - 0.1 * speck(x, y, 600, 120, 3) - 0.12 * speck(x, y, 210, 400, 2));

export const SCENES = {
  empty: base,
  'opaque tumbler with a handle': {
    ...base,
    subjects: [opaque(joined(body, ring(475, 250, 48, 9)), [0.05, 0.08, 0.2])],
  },
  'bright opaque box': {
    ...base,
    subjects: [opaque(roundBox(350, 240, 120, 120, 6), [0.5, 0.2, 0.12], 0.2)],
  },
  'white box 0.045 EV below the background': {
    ...base,
    subjects: [filter(roundBox(360, 240, 110, 110, 12), () => [WHITE, WHITE, WHITE])],
  },
  'white box that the background crosses in level': {
    ...base,
    subjects: [opaque(roundBox(360, 240, 110, 110, 12), lit(0.5, 0.5), 0)],
  },
  'soft shadow': { ...base, shadow, subjects: [opaque(body, [0.05, 0.08, 0.2])] },
  'camera bumped by a pixel': {
    ...base,
    texture,
    shiftPx: { right: 1, down: -1 },
    subjects: [opaque(body, [0.05, 0.08, 0.2])],
  },
  'bumped by part of a pixel': {
    ...base,
    texture,
    shiftPx: { right: 0.6, down: 0.3 },
    subjects: [opaque(body, [0.05, 0.08, 0.2])],
  },
  'glass that bends light': {
    ...base,
    subjects: [glass(body, lit, WIDTH_PX, HEIGHT_PX, (x, y) => [-1.6 * (x - 360), -1.2 * (y - 250)])],
  },
  'flat filters': {
    ...base,
    subjects: [
      filter(roundBox(250, 240, 90, 120, 10), (x) => [0.3 + 0.1 * Math.sin(x / 40), 0.6, 0.25]),
      filter(roundBox(480, 240, 90, 120, 10), (_, y) => [0.8, 0.35 + 0.1 * Math.cos(y / 30), 0.5]),
    ],
  },
} satisfies Record<string, SubjectScene>;

export type SceneName = keyof typeof SCENES;
