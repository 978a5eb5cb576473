import { describe, expect, test } from 'vitest';
import type { FrameGlance } from '../../../src/engine/sorting/frame-glance.ts';
import { frameLevels } from '../../../src/engine/sorting/frame-level.ts';
import { madeShoot } from '../../synthetic/shoots/made-shoot.ts';
import { madeGlance } from './made-glances.ts';

/** A blank, the room's light alone, and four of a subject. */
const { frames } = madeShoot(2);
const [blank, lampOff, subject] = [frames[0]!, frames[1]!, frames[2]!];
const dimmed = (glance: FrameGlance, ev: number): FrameGlance => ({
  ...glance,
  stops: glance.stops.map((one) => one - ev),
});

describe('without a word on exposure', () => {
  const usual = [blank, subject, subject, subject].map((frame) => madeGlance(frame, false));
  const off = madeGlance(lampOff, false);

  test('two frames of the room’s light do not vouch for one another', () => {
    expect(frameLevels([...usual, off, off]).slice(-2)).toEqual(['without-light', 'without-light']);
  });

  test('one of the same scene, only darker, is exposed badly', () => {
    expect(frameLevels([...usual, dimmed(usual[0]!, 4)]).at(-1)).toBe('underexposed');
  });
});

test('a frame without settings among others with them is not taken for another level', () => {
  const stated = [blank, subject, subject, subject].map((frame) => madeGlance(frame));
  const levels = frameLevels([...stated, madeGlance(subject, false)]);
  expect(levels).toEqual(['usual', 'usual', 'usual', 'usual', 'usual']);
});
