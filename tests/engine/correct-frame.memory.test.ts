import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { render } from './blank-render.ts';
import { latticeOf, profileOf } from './correct/profile-of.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Bytes that are held once everything that nobody holds is gone; arrays are freed a while after they are collected. */
async function heldBytes(): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let look = 0; look < 4; look++) {
    collect();
    await new Promise((resolve) => setTimeout(resolve, 30));
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    least = Math.min(least, heapUsed + arrayBuffers);
  }
  return least;
}

test('correctFrame(source, profile) holds nothing of the files before: 40 files take no more than 5', async () => {
  const { field } = randomField(12, { family: 'plane', spreadEv: 1 });
  const frame = render(field, { bits: 8, widthPx: 900, heightPx: 600 });
  const bytes = await toJpeg(frame, { quality: 90, chroma: '4:4:4' });
  const profile = profileOf(latticeOf(13, 9, (x, y) => [0.2 * x, 0.1 * y, 0.1]));
  const one = async () => {
    const { parts } = await correctFrame({ name: 'a.jpg', bytes }, profile, {}, nodePlatform);
    return parts.reduce((sum, part) => sum + part.length, 0);
  };
  let written = 0;
  for (let file = 0; file < 5; file++) written += await one();
  const after5 = await heldBytes();
  for (let file = 5; file < 40; file++) written += await one();
  const grown = (await heldBytes()) - after5;
  console.log(
    `measured: 40 files, ${(written / 1e6).toFixed(0)} MB written, ${(grown / 1e6).toFixed(2)} MB more held than after 5`,
  );
  expect(grown).toBeLessThan(900 * 600 * 6); // less than one picture
});
