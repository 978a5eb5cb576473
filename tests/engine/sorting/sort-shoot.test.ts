import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { FrameGlance } from '../../../src/engine/sorting/frame-glance.ts';
import { frameGlance } from '../../../src/engine/sorting/frame-glance.ts';
import { proposedSet } from '../../../src/engine/sorting/proposed-set.ts';
import { sortShoot } from '../../../src/engine/sorting/sort-shoot.ts';
import { codedFrame, type MadeFrame } from '../../synthetic/shoots/made-frame.ts';
import { type MadeShoot, madeShoot } from '../../synthetic/shoots/made-shoot.ts';
import { madeGlance } from './made-glances.ts';

const LEAST_RIGHT = 0.95;

interface Score {
  readonly right: number;
  readonly frames: number;
  readonly sets: number;
  /** Highest confidence with which a subject was called a marker. */
  readonly surestMistake: number;
  readonly wrong: readonly string[];
}

function score(shoots: readonly MadeShoot[], glancesOf: (shoot: MadeShoot) => readonly FrameGlance[]): Score {
  const wrong: string[] = [];
  let [frames, sets, surestMistake] = [0, 0, 0];
  for (const shoot of shoots) {
    const told = sortShoot(glancesOf(shoot));
    for (const [i, { kind }] of shoot.frames.entries()) {
      frames++;
      if (told[i]!.kind === kind) continue;
      wrong.push(`${shoot.describe}, frame ${i + 1}: ${kind} told as ${told[i]!.kind}`);
      if (kind === 'subject' && told[i]!.kind === 'marker')
        surestMistake = Math.max(surestMistake, told[i]!.confidence);
    }
    const { subjects } = proposedSet(told.map(({ kind }) => kind));
    if (subjects.join() === shoot.keepers.join()) sets++;
  }
  return { right: frames - wrong.length, frames, sets, surestMistake, wrong };
}

function hold(what: string, made: Score, shoots: number): void {
  console.log(
    `measured: ${what}: ${made.right} of ${made.frames} frames right, ${made.sets} of ${shoots} sets as they were ` +
      `meant${made.wrong.map((line) => `\n  ${line}`).join('')}`,
  );
  expect(made.right / made.frames).toBeGreaterThanOrEqual(LEAST_RIGHT);
  expect(made.surestMistake).toBeLessThanOrEqual(0.5);
  expect(made.sets / shoots).toBeGreaterThanOrEqual(0.8);
}

const shootsFrom = (first: number, count: number) =>
  Array.from({ length: count }, (_, i) => madeShoot(first + i));

/** What a preview in a JPEG shows: the frame at full size coded with losses, then decoded at a third. */
async function previewGlance(frame: MadeFrame): Promise<FrameGlance> {
  const { widthPx, heightPx, samples } = codedFrame(frame);
  const jpeg = await sharp(samples, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 85 })
    .toBuffer();
  const { data, info } = await sharp(jpeg)
    .resize(widthPx / 3)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const exposure = { ...frame.exposure, focalLengthMm: null, takenAt: null };
  return frameGlance({ widthPx: info.width, heightPx: info.height, samples: data }, exposure);
}

describe('frames of made shoots are told apart', () => {
  const six = shootsFrom(0, 6);

  test('sixty frames of six shoots', () => {
    hold(
      '60 frames',
      score(six, ({ frames }) => frames.map((frame) => madeGlance(frame))),
      6,
    );
  });

  test('without a word on their exposure', () => {
    hold(
      '60 frames, settings not stated',
      score(six, ({ frames }) => frames.map((frame) => madeGlance(frame, false))),
      6,
    );
  });

  test('sixty more, drawn after every threshold had been chosen', () => {
    hold(
      '60 frames not seen before',
      score(shootsFrom(300, 6), ({ frames }) => frames.map((frame) => madeGlance(frame))),
      6,
    );
  });

  test('from JPEGs decoded in small', async () => {
    const large = six.map((_, seed) => madeShoot(seed, 480));
    const glances = new Map<MadeShoot, FrameGlance[]>();
    for (const shoot of large) glances.set(shoot, await Promise.all(shoot.frames.map(previewGlance)));
    hold(
      '60 JPEGs in small',
      score(large, (shoot) => glances.get(shoot)!),
      6,
    );
  });
});

test('a shoot of one frame, and of none, is told too', () => {
  const [blank] = madeShoot(0).frames;
  expect(sortShoot([madeGlance(blank!)]).map(({ kind }) => kind)).toEqual(['blank']);
  expect(sortShoot([])).toEqual([]);
});

test('frames of another shape than their neighbours’ are told without them', () => {
  const { frames } = madeShoot(0);
  const upright = madeGlance(frames[1]!);
  const turned: FrameGlance = { ...upright, columns: upright.rows, rows: upright.columns };
  expect(sortShoot([upright, turned, upright])).toHaveLength(3);
});
