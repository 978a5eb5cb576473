import { expect, test } from 'vitest';
import { findings } from '../../../src/engine/diagnosis/findings.ts';
import { misfittingFrame } from '../../../src/engine/diagnosis/misfitting-frame.ts';
import type { SecondFrameRole } from '../../../src/engine/lamps/second-frame.ts';
import { diagnosisOf } from './measurement-of.ts';
import { setReadingOf, shareOf } from './set-reading-of.ts';

/** A frame with a spread of 0.8 stop and a second one of which so much is left over. */
function input(kind: SecondFrameRole['kind'], leftOverEv: number) {
  const set = setReadingOf({ secondFrames: [{ kind, leftOverEv }], causes: [shareOf('off-centre')] });
  return { ...diagnosisOf({ ev: (x: number) => 0.8 * x }), set };
}

test('a lens check that the set does not follow is told, and what to look for', () => {
  expect(misfittingFrame(input('shifted', 0.2))!.says).toBe(
    'The second frame with the camera slid does not go with the blank one: they are off by 0.2 stop on average. See which way and how far the camera was slid, and that nothing else was moved, or leave that frame out.',
  );
  expect(misfittingFrame(input('stopped-down', 0.2))!.says).toMatch(
    /^The second frame with the lens stopped down/,
  );
  // a twentieth of 0.8 stop
  expect(misfittingFrame(input('shifted', 0.035))).toBeNull();
  expect(misfittingFrame(input('shifted', 0.045))).not.toBeNull();
});

test('the room’s light is not held to its shape, and without a set nothing is said', () => {
  expect(misfittingFrame(input('lamp-off', 2))).toBeNull();
  expect(misfittingFrame({ ...input('shifted', 0.2), set: null })).toBeNull();
});

test('causes are not told of frames that do not go together', () => {
  const kinds = (leftOverEv: number) => findings(input('shifted', leftOverEv)).map(({ kind }) => kind);
  expect(kinds(0.003)).toContain('off-centre');
  expect(kinds(0.3)[0]).toBe('cannot-tell');
  expect(kinds(0.3)).not.toContain('off-centre');
});
