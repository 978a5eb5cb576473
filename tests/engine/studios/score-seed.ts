import { randomStudio } from '../../synthetic/random/random-studio.ts';
import { trueShares } from '../../synthetic/random/true-shares.ts';
import { plantedSpillShare } from './figure-errors.ts';
import { type StudioScore, scoreStudio } from './score-studio.ts';
import { measureStudio, readStudio, secondFrameOf } from './studio-frames.ts';

/** Draws a studio, reads its frames and scores them; second frames only where they measure what was planted. */
export async function scoreSeed(seed: number): Promise<StudioScore> {
  const studio = randomStudio(seed);
  const frame = await measureStudio(studio);
  const withSecond = async (kind: 'lamp-off' | 'shifted') =>
    readStudio(studio, frame, [await secondFrameOf(studio, frame, kind)]);
  const hasLensFalloff = studio.planted.some(({ kind }) => kind === 'lens-falloff');
  return scoreStudio(studio, trueShares(studio), {
    blank: readStudio(studio, frame),
    withLightsOff: plantedSpillShare(studio) === null ? null : await withSecond('lamp-off'),
    withSlid: hasLensFalloff ? await withSecond('shifted') : null,
  });
}
