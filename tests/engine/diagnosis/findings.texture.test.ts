import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { bands } from '../../../src/engine/diagnosis/bands.ts';
import { creases } from '../../../src/engine/diagnosis/creases.ts';
import { specks } from '../../../src/engine/diagnosis/specks.ts';
import { weave } from '../../../src/engine/diagnosis/weave.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { blankSamples } from '../../blank-samples.ts';
import { BUSY } from '../../busy-machine.ts';
import { toPng } from '../../synthetic/encode.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { SHEET_SET } from '../../synthetic/studio/even-set.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { plainLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
import { CODINGS, fileOf } from '../known-frames.ts';
import { fineGridOf } from './fine-grid.ts';
import { measurementOf } from './measurement-of.ts';

const DETECTORS = { bands, creases, weave, specks };
const KINDS = Object.keys(DETECTORS) as (keyof typeof DETECTORS)[];
const MEASUREMENT = measurementOf({ ev: () => 0 });

const found = (grid: CellGrid) =>
  KINDS.filter((kind) => (DETECTORS[kind]({ grid, measurement: MEASUREMENT })?.confidence ?? 0) > 0.5);

/** How often each is found in frames without any. */
async function falseFinds(files: AsyncIterable<{ name: string; bytes: Uint8Array }>) {
  const counts: Record<string, number> = { bands: 0, creases: 0, weave: 0, specks: 0 };
  const where: string[] = [];
  let frames = 0;
  for await (const { name, bytes } of files) {
    frames++;
    for (const kind of found(await fineGridOf(bytes))) {
      counts[kind]!++;
      where.push(`${kind} in ${name}`);
    }
  }
  return { frames, counts, where };
}

describe('what shows between the cells', () => {
  test.each(CODINGS)(
    'is found in at most 5 of 100 smooth fields of all families in %s',
    async (coding) => {
      async function* files() {
        for (let seed = 1; seed <= 24; seed++) {
          const { field, describe: name } = randomField(seed);
          const [widthPx, heightPx] = seed % 8 === 0 ? [1200, 800] : [480, 320];
          yield { name, bytes: await fileOf(field, coding, widthPx, heightPx, seed) };
        }
      }
      const { frames, counts, where } = await falseFinds(files());
      console.log(
        `measured: ${frames} smooth fields in ${coding}: ${JSON.stringify(counts)} ${where.join('; ')}`,
      );
      for (const kind of KINDS) expect(counts[kind]! / frames, kind).toBeLessThanOrEqual(0.05);
    },
    180_000,
  );

  test('is not found in the light of sets, at any sensitivity', async () => {
    async function* files() {
      for (const [i, electronsAtFull] of [100_000, 30_000, 8000, 2000, 500].entries()) {
        for (const xMm of [0, 180]) {
          const set: StudioSet = { ...SHEET_SET, lamps: [plainLamp({ xMm, distanceMm: 400 + 100 * i })] };
          const frame = renderFrame(studioField(set).field, {
            widthPx: 720,
            heightPx: 480,
            bits: i % 2 === 0 ? 8 : 16,
            curve: 'srgb',
            electronsAtFull,
            readNoiseElectrons: 4,
            seed: i,
          });
          yield { name: `a lamp at ${xMm} mm, ${electronsAtFull} electrons`, bytes: toPng(frame) };
        }
      }
    }
    const { frames, counts, where } = await falseFinds(files());
    console.log(`measured: ${frames} sets: ${JSON.stringify(counts)} ${where.join('; ')}`);
    expect(where).toEqual([]);
  }, 120_000);

  test.skipIf(!existsSync('samples/samples.json'))(
    'is not found in any sample',
    async () => {
      async function* files() {
        for (const name of blankSamples())
          yield { name, bytes: new Uint8Array(readFileSync(`samples/${name}`)) };
      }
      expect((await falseFinds(files())).where).toEqual([]);
    },
    120_000,
  );

  test.each<[keyof typeof DETECTORS, Partial<StudioSet>]>([
    ['bands', { bands: { periodLines: 60, ofLines: 480, modulation: 0.05, phaseDeg: 40, run: 'across' } }],
    ['bands', { bands: { periodLines: 33, ofLines: 480, modulation: 0.03, phaseDeg: 90, run: 'upright' } }],
    ['weave', { texture: { weave: { pitchRightMm: 5, pitchDownMm: 6, rangeEv: 0.1 } } }],
    ['creases', { texture: { creases: [{ xMm: 20, yMm: 10, angleDeg: 65, widthMm: 6, depthEv: -0.1 }] } }],
    ['specks', { texture: { dust: [{ xMm: 90, yMm: -70, radiusMm: 3, depthEv: 0.4 }] } }],
  ])('is found to be %s alone where that alone was planted', async (kind, part) => {
    const { field } = studioField({ ...SHEET_SET, ...part });
    expect(found(await fineGridOf(await fileOf(field, '8 bit', 720, 480, 3)))).toEqual([kind]);
  });

  test('is looked for in at most 60 ms on 96 × 64 cells', BUSY, async () => {
    const grid = await fineGridOf(await fileOf(randomField(4).field, '8 bit', 1200, 800, 4));
    expect([grid.columns, grid.rows]).toEqual([96, 64]);
    const times = Array.from({ length: 15 }, () => {
      const start = performance.now();
      found({ ...grid }); // a copy, as what was once worked out of a grid is kept
      return performance.now() - start;
    }).sort((a, b) => a - b);
    console.log(`measured: bands, creases, weave and specks in ${times[0]!.toFixed(0)} ms (fastest of 15)`);
    expect(times[0]).toBeLessThan(60);
  });
});
