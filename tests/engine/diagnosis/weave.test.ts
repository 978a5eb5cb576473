import { describe, expect, test } from 'vitest';
import { weave } from '../../../src/engine/diagnosis/weave.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { toPng } from '../../synthetic/encode.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { SHEET_SET } from '../../synthetic/studio/even-set.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { type Coding, fileOf } from '../known-frames.ts';
import { fineGridOf } from './fine-grid.ts';
import { gridOf } from './measurement-of.ts';

const [WIDTH_PX, HEIGHT_PX] = [384, 256];

/** A sheet with threads this many pixels apart both ways. */
function woven(rightPx: number, downPx: number, rangeEv: number) {
  const pitch = {
    pitchRightMm: (rightPx * SHEET_SET.frameWidthMm) / WIDTH_PX,
    pitchDownMm: (downPx * SHEET_SET.frameHeightMm) / HEIGHT_PX,
  };
  return studioField({ ...SHEET_SET, texture: { weave: { ...pitch, rangeEv } } }).field;
}

describe('weave(input)', () => {
  test.each<[Coding, number, number]>([
    ['16 bit', 0.02, 0.95],
    ['8 bit', 0.02, 0.95],
    ['JPEG 4:2:0', 0.1, 0.9],
  ])(
    'finds the threads of a sheet in %s, %f EV deep',
    async (coding, rangeEv, least) => {
      let hits = 0;
      const missed: string[] = [];
      const depths: number[] = [];
      const frames = 20;
      for (let seed = 1; seed <= frames; seed++) {
        const random = seededRandom(seed);
        const rightPx = 2.3 + 12 * random.uniform();
        const downPx = rightPx * (0.8 + 0.5 * random.uniform());
        const field = woven(rightPx, downPx, rangeEv);
        const finding = weave({
          grid: await fineGridOf(await fileOf(field, coding, WIDTH_PX, HEIGHT_PX, seed)),
        });
        const told = Number(/threads ([\d.]+) pixels/.exec(finding?.says ?? '')?.[1]);
        const right = Math.abs(told / rightPx - 1) < 0.05 || Math.abs(told / downPx - 1) < 0.05;
        if (right) {
          hits++;
          depths.push(Number(/and ([\d.]+) stop/.exec(finding!.says)![1]));
          expect(finding!.confidence).toBeGreaterThan(0.9);
          expect([finding!.ev, finding!.at]).toEqual([null, null]);
        } else missed.push(`${rightPx.toFixed(1)} × ${downPx.toFixed(1)} px told as ${told}`);
      }
      console.log(
        `measured: weave ${rangeEv} EV deep, ${coding}: ${hits} of ${frames} found, ${Math.min(...depths)} to ${Math.max(...depths)} EV told; missed ${missed.join('; ') || 'none'}`,
      );
      expect(hits / frames).toBeGreaterThanOrEqual(least);
    },
    120_000,
  );

  test('takes noise for no weave, however little light there is', async () => {
    for (const electronsAtFull of [100_000, 10_000, 1000, 200]) {
      const { field } = randomField(7, { spreadEv: 1.5 });
      const frame = renderFrame(field, {
        widthPx: WIDTH_PX,
        heightPx: HEIGHT_PX,
        bits: 8,
        curve: 'srgb',
        electronsAtFull,
        readNoiseElectrons: 5,
        seed: electronsAtFull,
      });
      expect(weave({ grid: await fineGridOf(toPng(frame)) })).toBeNull();
    }
  }, 60_000);

  test('takes a texture in part of the frame for no weave', async () => {
    const cloth = woven(6, 6, 0.1);
    const bare = woven(6, 6, 0);
    const half = (x: number, y: number) => (x < 0.5 ? cloth : bare)(x, y);
    expect(weave({ grid: await fineGridOf(await fileOf(half, '8 bit', WIDTH_PX, HEIGHT_PX, 1)) })).toBeNull();
  });

  test('finds nothing without fine structure, in black, or in a frame of one patch', async () => {
    expect(weave({ grid: gridOf({ ev: () => 0 }) })).toBeNull();
    for (const [field, widthPx, heightPx] of [
      [() => [0, 0, 0] as const, 200, 140],
      [woven(5, 5, 0.1), 90, 80],
      [woven(5, 5, 0.1), 40, 30],
    ] as const)
      expect(
        weave({ grid: await fineGridOf(await fileOf(field, '8 bit', widthPx, heightPx, 1)) }),
      ).toBeNull();
  });
});
