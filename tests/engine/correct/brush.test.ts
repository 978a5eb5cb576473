import { expect, test } from 'vitest';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import type { Brush } from '../../../src/engine/correct/matte/brush.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { codedLight, type SubjectScene, sceneLight } from '../../synthetic/subject-scene.ts';
import { opaque, roundBox } from '../../synthetic/subjects.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { latticeOf, profileOf } from './profile-of.ts';
import { lightOf, srgbOut, withoutSubject } from './shot-scene.ts';

const [widthPx, heightPx] = [240, 160];
const field: KnownField = (x) => [0.5 - 0.2 * x, 0.5 - 0.2 * x, 0.5 - 0.2 * x];
const scene: SubjectScene = {
  field,
  widthPx,
  heightPx,
  subjects: [opaque(roundBox(80, 80, 30, 40, 8), [0.1, 0.05, 0.05])],
};
const coding = { widthPx, heightPx, bits: 16, curve: 'srgb', electronsAtFull: 30_000 } as const;
const frame = codedLight(sceneLight(scene).light, { ...coding, seed: 1 });
const blank = codedLight(sceneLight(withoutSubject(scene)).light, { ...coding, seed: 2 });
const lift = profileOf(latticeOf(2, 2, () => [0.3, 0.3, 0.3]));
const out = srgbOut(16);

/** Gain of a spot's mean light, in stops. */
function gainAt(brush: Brush, x: number, y: number): number {
  const corrected = lightOf(
    correctLight(
      frameOfCodes(frame),
      lift,
      { treat: 'background-only', blank: frameOfCodes(blank), brush },
      out,
    ).samples,
    out,
  );
  const source = lightOf(frame.samples as Uint16Array, out);
  let [own, its] = [0, 0];
  for (let row = y - 3; row < y + 3; row++) {
    for (let column = x - 3; column < x + 3; column++) {
      own += corrected[(row * widthPx + column) * 3 + 1]!;
      its += source[(row * widthPx + column) * 3 + 1]!;
    }
  }
  return Math.log2(own / its);
}

test('a stroke takes background away and adds to it, the later one over the earlier', () => {
  const bar = (makes: 'background' | 'subject', y: number) =>
    ({
      makes,
      points: [
        { x: 0.2, y },
        { x: 0.9, y },
      ],
      radius: 0.05,
    }) as const;
  expect(gainAt([], 190, 80)).toBeCloseTo(0.3, 3);
  expect(gainAt([], 80, 80)).toBe(0);
  expect(gainAt([bar('subject', 0.5)], 190, 80)).toBeCloseTo(0, 3);
  expect(gainAt([bar('background', 0.5)], 80, 80)).toBeCloseTo(0.3, 3);
  expect(gainAt([bar('subject', 0.5), bar('background', 0.5)], 190, 80)).toBeCloseTo(0.3, 3);
  // beside a stroke of a twentieth of the width all stays as it was
  expect(gainAt([bar('subject', 0.2)], 190, 80)).toBeCloseTo(0.3, 3);
});

test('a matte is the same however frame and blank are stored, and strokes lie over the upright frame', () => {
  const brush: Brush = [{ makes: 'subject', points: [{ x: 0.8, y: 0.2 }], radius: 0.06 }];
  const upright = correctLight(
    frameOfCodes(frame),
    lift,
    { treat: 'background-only', blank: frameOfCodes(blank), brush },
    out,
  );
  for (const [own, its] of [
    [6, 1],
    [1, 8],
    [3, 6],
    [5, 5],
    [7, 2],
    [4, 8],
  ] as const) {
    const turned = correctLight(
      frameOfCodes(storedAs(frame, own), { orientation: own }),
      lift,
      {
        treat: 'background-only',
        blank: frameOfCodes(storedAs(blank, its), { orientation: its }),
        brush,
      },
      out,
    );
    const wanted = storedAs({ ...frame, samples: upright.samples }, own).samples;
    let far = 0;
    for (let at = 0; at < wanted.length; at++) if (Math.abs(wanted[at]! - turned.samples[at]!) > 2) far++;
    // sweeps run along stored rows, so that a few cells of an outline may fall otherwise
    expect(far / wanted.length).toBeLessThanOrEqual(0.002);
  }
});
