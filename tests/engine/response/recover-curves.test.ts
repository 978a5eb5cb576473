import { expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { blockCodes, blockLayout } from '../../../src/engine/response/block-codes.ts';
import { recoverCurves } from '../../../src/engine/response/recover-curves.ts';
import { nodePlatform } from '../../node-platform.ts';
import { bracketFiles, type RandomCamera, randomCamera } from '../../synthetic/random-camera.ts';
import { responseOf } from './response-of.ts';

const SIZE = { widthPx: 192, heightPx: 128 };
const CAMERAS = 14;

async function recovered(camera: RandomCamera, seed: number) {
  const files = await bracketFiles(camera, { ...SIZE, seed });
  const layout = blockLayout(SIZE.widthPx, SIZE.heightPx);
  const frames = await Promise.all(
    files.map(async (bytes) => blockCodes(await decodeImage(bytes, nodePlatform), layout)),
  );
  return recoverCurves(frames, camera.stops);
}

/** Over pairs of the codes that a bracket tells of: how much of them the ± covers, and by how much they are off. */
function against(truth: readonly number[], curves: Awaited<ReturnType<typeof recovered>>) {
  let [pairs, covered, squares] = [0, 0, 0];
  for (const channel of ['red', 'green', 'blue'] as const) {
    const curve = curves.channels[channel];
    const [low, high] = curves.codes[channel];
    for (let a = low; a <= high; a += 4)
      for (let b = a + 4; b <= high; b += 4) {
        const off = curve[a]! - curve[b]! - truth[a]! + truth[b]!;
        pairs++;
        squares += off * off;
        if (Math.abs(off) <= curves.plusMinusEv) covered++;
      }
  }
  return { share: covered / pairs, rmsEv: Math.sqrt(squares / pairs) };
}

test('recoverCurves(frames) follows any camera’s curve, never falls, and its ± covers what it is off', async () => {
  const shares: number[] = [];
  const rms: number[] = [];
  const ratios: number[] = [];
  for (let seed = 1; seed <= CAMERAS; seed++) {
    const camera = randomCamera(seed);
    const curves = await recovered(camera, 50 * seed);
    for (const curve of Object.values(curves.channels)) {
      expect(curve).toHaveLength(256);
      expect(curve.at(-1)).toBe(0);
      expect(
        curve.findIndex(
          (stops: number, code: number) => !Number.isFinite(stops) || (code > 0 && stops < curve[code - 1]!),
        ),
        camera.describe,
      ).toBe(-1);
    }
    const { share, rmsEv } = against(responseOf(camera.tone).channels.green, curves);
    shares.push(share);
    rms.push(rmsEv);
    ratios.push(curves.plusMinusEv / rmsEv);
    // not far off unsaid, whatever the camera
    expect(rmsEv, camera.describe).toBeLessThan(1.25 * curves.plusMinusEv);
  }
  const mean = shares.reduce((sum, share) => sum + share, 0) / CAMERAS;
  const middle = (values: readonly number[]) => values.toSorted((a, b) => a - b)[CAMERAS >> 1]!;
  console.log(
    `measured: of ${CAMERAS} drawn cameras (3 to 6 frames, shutters off by up to 0.02 EV rms), differences of light off by ${middle(rms).toFixed(4)} EV rms in the middle, ${Math.max(...rms).toFixed(3)} in the worst; the ± covers ${(100 * mean).toFixed(1)} of 100, ${middle(ratios).toFixed(1)} × the error in the middle`,
  );
  expect(mean).toBeGreaterThan(0.92);
  expect(middle(rms)).toBeLessThan(0.03);
  expect(middle(ratios)).toBeLessThan(5);
}, 60_000);

test('recoverCurves(frames) gives a bracket alike the same curve again', async () => {
  const camera = randomCamera(2);
  const [once, again] = [await recovered(camera, 7), await recovered(camera, 7)];
  expect(again.channels).toEqual(once.channels);
  expect(again.plusMinusEv).toBe(once.plusMinusEv);
});
