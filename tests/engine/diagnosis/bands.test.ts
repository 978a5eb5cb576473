import { describe, expect, test } from 'vitest';
import { bands } from '../../../src/engine/diagnosis/bands.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Exposure, Finding } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { toPng } from '../../synthetic/encode.ts';
import type { FieldFamily } from '../../synthetic/field-families.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';
import { type Coding, fileOf } from '../known-frames.ts';
import { behind, fineGridOf } from './fine-grid.ts';
import { measurementOf } from './measurement-of.ts';

const [WIDTH_PX, HEIGHT_PX] = [480, 320];
const PLAIN: readonly FieldFamily[] = ['plane', 'quadratic', 'radial', 'two-bumps'];

interface Flicker {
  readonly periodLines: number;
  readonly depthEv: number;
  readonly phase: number;
}

/** Light that a flickering lamp leaves under a shutter that runs down the frame. */
function flickering(seed: number, { periodLines, depthEv, phase }: Flicker) {
  const { field } = randomField(seed, { spreadEv: 0.1 + (seed % 5) * 0.2, family: PLAIN[seed % 4]! });
  return behind(
    field,
    (_, y) => 2 ** ((depthEv / 2) * (Math.cos((2 * Math.PI * y * HEIGHT_PX) / periodLines - phase) - 1)),
  );
}

const EXPOSURE: Exposure = { seconds: null, fNumber: null, iso: null, focalLengthMm: null, takenAt: null };

function found(grid: CellGrid, seconds: number | null = null): Finding | null {
  const measured = measurementOf({ ev: () => 0 });
  return bands({
    grid,
    measurement: { ...measured, frame: { ...measured.frame, exposure: { ...EXPOSURE, seconds } } },
  });
}

const periodOf = (finding: Finding | null) => Number(/every ([\d.]+) lines/.exec(finding?.says ?? '')?.[1]);

/** Periods from 12 lines to half the frame, evenly in their logarithm. */
const periodOfSeed = (seed: number) => 12 * (HEIGHT_PX / 2 / 12) ** seededRandom(seed).uniform();

describe('bands(input)', () => {
  test.each<[Coding, number, number]>([
    ['16 bit', 0.02, 0.9],
    ['8 bit', 0.02, 0.9],
    ['JPEG 4:2:0', 0.06, 0.9],
    ['16 bit', 0.15, 0.95],
    ['8 bit', 0.15, 0.95],
  ])(
    'finds the period of bands in %s, %f EV deep',
    async (coding, depthEv, least) => {
      let hits = 0;
      let worst = 0;
      const missed: string[] = [];
      const frames = 20;
      for (let seed = 1; seed <= frames; seed++) {
        const periodLines = periodOfSeed(seed);
        const field = flickering(seed, { periodLines, depthEv, phase: seed });
        const finding = found(await fineGridOf(await fileOf(field, coding, WIDTH_PX, HEIGHT_PX, seed)));
        const off = Math.abs(periodOf(finding) / periodLines - 1);
        if (off < 0.02) {
          hits++;
          worst = Math.max(worst, off);
        } else missed.push(`${seed}: ${periodLines.toFixed(0)} lines, told ${periodOf(finding)}`);
      }
      console.log(
        `measured: bands ${depthEv} EV deep, ${coding}: ${hits} of ${frames} found, period off by at most ${(worst * 100).toFixed(1)} %; missed ${missed.join('; ') || 'none'}`,
      );
      expect(hits / frames).toBeGreaterThanOrEqual(least);
    },
    120_000,
  );

  test('finds the bands of a file that is turned, up and down the frame', async () => {
    const field = flickering(3, { periodLines: 40, depthEv: 0.1, phase: 1 });
    const frame = renderFrame(field, {
      widthPx: WIDTH_PX,
      heightPx: HEIGHT_PX,
      bits: 8,
      curve: 'srgb',
      electronsAtFull: 30_000,
      seed: 3,
    });
    const lying = found(await fineGridOf(toPng(frame)))!;
    expect(lying.says).toContain('run across the frame every 40 lines');
    const pictures = [6, 8].map((orientation) => toPng(frame, { exif: { orientation } }));
    for (const bytes of [...pictures, toPng(storedAs(frame, 8))]) {
      const turned = found(await fineGridOf(bytes))!;
      expect(turned.says).toContain('run up and down the frame every 40 lines');
      expectWithin(turned.ev!, lying.ev!, 0.002);
      // the darkest line of the turned frame is that of the lying one
      expectWithin(Math.abs(turned.at!.x - 0.5), Math.abs(lying.at!.y - 0.5), 0.01);
    }
  });

  test('says where the dark band nearest the middle lies, and how much of the spread it makes', async () => {
    const periodLines = 0.4 * HEIGHT_PX;
    const flat = behind(
      () => [0.5, 0.5, 0.5],
      (_, y) => 2 ** (0.1 * Math.cos((2 * Math.PI * (y - 0.1) * HEIGHT_PX) / periodLines)),
    );
    const finding = found(await fineGridOf(await fileOf(flat, '16 bit', WIDTH_PX, HEIGHT_PX, 1)))!;
    // crests at 0.1, 0.5 and 0.9 of the height: troughs at 0.3 and 0.7
    expectWithin(Math.min(Math.abs(finding.at!.y - 0.3), Math.abs(finding.at!.y - 0.7)), 0, 0.01);
    // the whole wave, though means over 5 cells of 8 lines leave but 0.85 of it in the figures
    expectWithin(finding.ev!, 0.2, 0.01);
    expect(finding.says).toContain('Bands 0.2 stop deep');
    expect(finding.confidence).toBeGreaterThan(0.99);
  });

  test('names the mains where the shutter time rules one out, and asks for them otherwise', async () => {
    const field = flickering(1, { periodLines: 50, depthEv: 0.35, phase: 0 });
    const grid = await fineGridOf(await fileOf(field, '8 bit', WIDTH_PX, HEIGHT_PX, 1));
    const says = (seconds: number | null) => found(grid, seconds)!.says;
    expect(says(1 / 125)).toMatch(/fits 50 Hz mains, so shoot at 1\/50 or 1\/100 s\.$/);
    expect(says(1 / 100)).toMatch(/fits 60 Hz mains, so shoot at 1\/60 or 1\/120 s\.$/);
    expect(says(1 / 250)).toContain('which mains feed it?');
    expect(says(null)).toContain('which mains feed it?');
    expect(says(1 / 10)).toContain('no mains flicker leaves so much');
  });

  test('finds nothing in a still field, in one without fine structure, or on a line or two', async () => {
    const { field } = randomField(2, { family: 'radial' });
    const grid = await fineGridOf(await fileOf(field, '8 bit', WIDTH_PX, HEIGHT_PX, 2));
    expect(found(grid)).toBeNull();
    expect(found({ ...grid, fine: null })).toBeNull();
    const dark = await fineGridOf(await fileOf(() => [0, 0, 0], '8 bit', 64, 64, 1));
    expect(found(dark)).toBeNull();
    const tiny = await fineGridOf(await fileOf(field, '8 bit', 17, 16, 2));
    expect(found(tiny)).toBeNull();
  });
});
