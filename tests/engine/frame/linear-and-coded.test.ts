import { expect, test } from 'vitest';
import { xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { transformVector3, type Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';

const BLOCK_PX = 16;

/** Mean XYZ of each block, averaged in linear light. */
async function blockXyz(path: string): Promise<Vector3[]> {
  const { frame } = linearise(await decodeImage(sharedPhoto(path), nodePlatform));
  const { widthPx, heightPx, channels, samples, lightAtCode, toXyz } = frame;
  const lights = [lightAtCode.red, lightAtCode.green, lightAtCode.blue];
  const xyz: Vector3[] = [];
  for (let top = 0; top < heightPx; top += BLOCK_PX)
    for (let left = 0; left < widthPx; left += BLOCK_PX) {
      const [red, green, blue] = lights.map((light, c) => {
        let sum = 0;
        for (let y = top; y < top + BLOCK_PX; y++)
          for (let x = left; x < left + BLOCK_PX; x++)
            sum += light[samples[(y * widthPx + x) * channels + c]!]!;
        return sum / BLOCK_PX ** 2;
      });
      xyz.push(transformVector3(toXyz, [red!, green!, blue!]));
    }
  return xyz;
}

/** How far two pictures of one scene lie apart, block by block; falloff is against each picture's own mean. */
async function difference(linear: string, coded: string) {
  const one = await blockXyz(`linear-and-coded/${linear}.png`);
  const other = await blockXyz(`linear-and-coded/${coded}.png`);
  const ev = one.map(([, y], i) => Math.log2(y / other[i]![1]));
  const levelEv = ev.reduce((sum, value) => sum + value) / ev.length;
  const falloffEv = Math.max(...ev.map((value) => Math.abs(value - levelEv)));
  const deltaUv = Math.max(
    ...one.map((xyz, i) => {
      const [a, b] = [xyzToUvPrime(...xyz), xyzToUvPrime(...other[i]!)];
      return Math.hypot(a.uPrime - b.uPrime, a.vPrime - b.vPrime);
    }),
  );
  console.log(
    `measured: ${linear} against ${coded}, ${one.length} blocks: level ${levelEv.toFixed(4)} EV apart, ` +
      `falloff within ${falloffEv.toFixed(4)} EV, u′v′ within ${deltaUv.toFixed(5)}`,
  );
  return { falloffEv, deltaUv };
}

test.skipIf(!sharedPhotosPresent)(
  'linearise() reads linear Rec. 2020 and coded sRGB of one scene alike',
  async () => {
    const { falloffEv, deltaUv } = await difference('a-rec2020-linear', 'a-srgb-8bit');
    expect(falloffEv).toBeLessThanOrEqual(0.02);
    expect(deltaUv).toBeLessThanOrEqual(0.002);
  },
);

test.skipIf(!sharedPhotosPresent)(
  'linearise() reads linear Rec. 709 and coded sRGB of one dark scene alike',
  async () => {
    const { falloffEv } = await difference('b-rec709-linear', 'b-srgb-8bit');
    expect(falloffEv).toBeLessThanOrEqual(0.02);
    // its green and blue lie between codes 0 and 3 of the coded file, which therefore can't hold its colour
  },
);
