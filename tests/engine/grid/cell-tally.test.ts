import { describe, expect, test } from 'vitest';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { type CellTally, cellTallier } from '../../../src/engine/grid/cell-tally.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { WELL_ELECTRONS } from '../known-frames.ts';
import { frameOfCodes } from './frame-of-codes.ts';
import { noisyCells } from './noisy-cells.ts';

const EMPTY: CellTally = {
  pixels: 0,
  red: 0,
  green: 0,
  blue: 0,
  redScatter: 0,
  greenScatter: 0,
  blueScatter: 0,
  highlightShare: 0,
  shadowShare: 0,
  speckShare: 0,
  darkSpeckShare: 0,
};

/** Tallies of all square cells of a frame, row by row. */
function tallies(frame: LinearFrame, sidePx: number): CellTally[] {
  const tally = { ...EMPTY };
  const tallyCell = cellTallier(frame, tally);
  const cells: CellTally[] = [];
  for (let y0 = 0; y0 + sidePx <= frame.heightPx; y0 += sidePx) {
    for (let x0 = 0; x0 + sidePx <= frame.widthPx; x0 += sidePx) {
      tallyCell({ x0, y0, x1: x0 + sidePx, y1: y0 + sidePx });
      cells.push({ ...tally });
    }
  }
  return cells;
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe.each([8, 16] as const)('the robust mean of a cell at %i bits', (bits) => {
  const SIDE_PX = 12;
  const CELLS_ACROSS = 60;

  test.each([0.9, 0.5, 0.2, 0.06])(
    'stays unbiased to 0.001 EV under a gradient and shot noise at light %f',
    (level) => {
      let worst = 0;
      for (const gradientEv of [0, 0.05, 0.2]) {
        const slope = (xPx: number) => 2 ** ((((xPx % SIDE_PX) + 0.5) / SIDE_PX - 1) * gradientEv);
        const frame = noisyCells({
          light: (xPx) => level * slope(xPx),
          widthPx: SIDE_PX * CELLS_ACROSS,
          heightPx: SIDE_PX * CELLS_ACROSS,
          bits,
          electronsAtFull: WELL_ELECTRONS,
          seed: 7 + gradientEv,
        })();
        const truth = level * mean(Array.from({ length: SIDE_PX }, (_, x) => slope(x)));
        const cells = tallies(frameOfCodes(frame), SIDE_PX);
        const light = cells.flatMap(({ red, green, blue }) => [red, green, blue]);
        const biasEv = Math.log2(mean(light) / truth);
        const standardErrorEv =
          Math.sqrt(mean(light.map((v) => (v / truth - 1) ** 2)) / light.length) / Math.LN2;
        expect(standardErrorEv).toBeLessThan(0.0002);
        if (Math.abs(biasEv) > Math.abs(worst)) worst = biasEv;
      }
      console.log(
        `measured: bias of ${3 * CELLS_ACROSS ** 2} cells at light ${level}, ${bits} bits: at most ${worst.toFixed(5)} EV`,
      );
      expect(Math.abs(worst)).toBeLessThan(0.001);
    },
  );

  test('comes with the scatter of its single pixels', () => {
    const frame = noisyCells({
      light: () => 0.4,
      widthPx: 40 * SIDE_PX,
      heightPx: 40 * SIDE_PX,
      bits,
      electronsAtFull: WELL_ELECTRONS,
      seed: 3,
    })();
    const linear = frameOfCodes(frame);
    const cells = tallies(linear, SIDE_PX);
    const scatter = Math.sqrt(mean(cells.map(({ greenScatter }) => greenScatter ** 2)));
    const { green } = linear.lightAtCode;
    const code = green.findIndex((light) => light > 0.4);
    const rounding = (green[code]! - green[code - 1]!) / Math.sqrt(12);
    const freedom = 1 - 1 / SIDE_PX ** 2;
    const truth = Math.hypot(Math.sqrt(0.4 / WELL_ELECTRONS), rounding) * Math.sqrt(freedom);
    console.log(`measured: scatter ${(scatter / truth).toFixed(4)} of shot noise and rounding, ${bits} bits`);
    expectWithin(scatter / truth, 1, 0.01);
  });
});

describe.each([8, 16] as const)('the clipped and blocked shares of a cell at %i bits', (bits) => {
  test('count every pixel with any channel at an end of the codes', () => {
    const random = seededRandom(bits);
    const [side, across] = [9, 20];
    const top = 2 ** bits - 1;
    const count = (side * across) ** 2 * 3;
    const samples = bits === 8 ? new Uint8Array(count) : new Uint16Array(count);
    for (let i = 0; i < count; i++) {
      const dice = random.uniform();
      samples[i] = dice < 0.08 ? top : dice < 0.15 ? 0 : Math.round(top * (0.3 + 0.2 * random.uniform()));
    }
    // whole cells clipped in one channel, in all, and none at all
    for (let y = 0; y < side; y++) {
      for (let x = 0; x < 3 * side; x++) {
        const at = (y * side * across + x) * 3;
        if (x < side) samples[at + 2] = top;
        else if (x < 2 * side) samples.fill(top, at, at + 3);
        else samples.fill(top >> 1, at, at + 3);
      }
    }
    const frame = frameOfCodes({ widthPx: side * across, heightPx: side * across, bits, samples });
    const cells = tallies(frame, side);
    cells.forEach((cell, index) => {
      const [left, top0] = [(index % across) * side, Math.floor(index / across) * side];
      let [high, low] = [0, 0];
      for (let y = top0; y < top0 + side; y++) {
        for (let x = left; x < left + side; x++) {
          const pixel = samples.subarray((y * side * across + x) * 3, (y * side * across + x) * 3 + 3);
          if (pixel.some((code) => code >= frame.clipCode)) high++;
          if (pixel.some((code) => code <= frame.floorCode)) low++;
        }
      }
      expect([cell.highlightShare, cell.shadowShare]).toEqual([high / side ** 2, low / side ** 2]);
    });
    expect(cells[0]!.highlightShare).toBe(1);
    expect(cells[2]!.highlightShare).toBe(0);
  });

  test('say nothing of codes one above the end', () => {
    const codes = bits === 8 ? [254, 1] : [65_519, 1];
    for (const code of codes) {
      const samples = new (bits === 8 ? Uint8Array : Uint16Array)(8 * 8 * 3).fill(code);
      const [cell] = tallies(frameOfCodes({ widthPx: 8, heightPx: 8, bits, samples }), 8);
      expect([cell!.highlightShare, cell!.shadowShare]).toEqual([0, 0]);
    }
  });
});

test('cellTallier reads grey, grey with alpha, RGB and RGB with alpha alike', () => {
  const random = seededRandom(5);
  const greys = Array.from({ length: 256 }, () => 90 + Math.round(8 * random.uniform()));
  for (const bits of [8, 16] as const) {
    const scale = bits === 8 ? 1 : 257;
    const results = ([1, 2, 3, 4] as const).map((channels) => {
      const codes = greys.flatMap((grey) => {
        const colour = new Array<number>(channels < 3 ? 1 : 3).fill(grey * scale);
        return channels % 2 === 0 ? [...colour, 17] : colour;
      });
      const frame = frameOfCodes({ widthPx: 16, heightPx: 16, bits, samples: new Uint16Array(0) });
      const samples = bits === 8 ? Uint8Array.from(codes) : Uint16Array.from(codes);
      return tallies({ ...frame, channels, samples }, 16)[0]!;
    });
    for (const result of results) {
      for (const key of Object.keys(EMPTY) as (keyof CellTally)[])
        expectWithin(result[key], results[2]![key], 1e-15);
    }
    expect(results[0]!.red).toBe(results[0]!.blue);
  }
});

test('cellTallier sees a share of dark or bright pixels as specks, and none in plain noise', () => {
  const photograph = noisyCells({
    light: () => 0.4,
    widthPx: 20,
    heightPx: 20,
    bits: 16,
    electronsAtFull: WELL_ELECTRONS,
    seed: 1,
  });
  const speckShare = (transmission: number) =>
    tallies(frameOfCodes(photograph((_xPx, yPx) => (yPx < 2 ? transmission : 1))), 20)[0]!.speckShare;
  expect(speckShare(1)).toBeLessThan(0.001);
  expectWithin(speckShare(0.3), 0.1, 0.005);
  expectWithin(speckShare(2), 0.1, 0.005);
});

test('cellTallier gives the plain mean and scatter of 16-bit light where nothing is set aside', () => {
  const photograph = noisyCells({
    light: (xPx) => 0.3 + 0.0005 * xPx,
    widthPx: 96,
    heightPx: 24,
    bits: 16,
    electronsAtFull: WELL_ELECTRONS,
    seed: 5,
  });
  const frame = frameOfCodes(photograph(() => 1));
  let worst = 0;
  tallies(frame, 24).forEach((tally, cell) => {
    expect(tally.speckShare).toBe(0);
    (['red', 'green', 'blue'] as const).forEach((name, bank) => {
      const lights = Array.from({ length: 24 * 24 }, (_, i) => {
        const at = Math.floor(i / 24) * 96 + 24 * cell + (i % 24);
        return frame.lightAtCode[name][frame.samples[3 * at + bank]!]!;
      });
      const scatter = Math.sqrt(mean(lights.map((light) => (light - mean(lights)) ** 2)));
      worst = Math.max(
        worst,
        Math.abs(tally[name] - mean(lights)),
        Math.abs(tally[`${name}Scatter`] - scatter),
      );
    });
  });
  console.log(`measured: 16-bit cells from their plain mean and scatter: worst ${worst}`);
  expect(worst).toBeLessThan(1e-12);
});

test.each([
  ['above', (code: number) => code],
  ['below', (code: number) => 60_159 - code], // the same about the middle of the other pixels
] as const)(
  'cellTallier tells apart codes of one 16-bit bin where the limit %s lies inside it',
  (_, turned) => {
    const others = Array.from({ length: 99 }, (_, i) => 30_000 + Math.floor((i * 160) / 99));
    const tallyWith = (last: number) => {
      const codes = [...others, last].map(turned);
      const samples = Uint16Array.from(codes.flatMap((code) => [code, code, code]));
      const frame = frameOfCodes({ widthPx: 10, heightPx: 10, bits: 16, samples }, { isLinear: true });
      const light = codes.map((code) => frame.lightAtCode.red[code]!);
      return { tally: tallies(frame, 10)[0]!, all: mean(light), withoutLast: mean(light.slice(0, -1)) };
    };
    // six deviations of these pixels from their median end at about 30 439: both codes stand in the bin from 30 432 on
    const kept = tallyWith(30_432);
    expect(kept.tally.speckShare).toBe(0);
    expectWithin(kept.tally.red, kept.all, 1e-12);
    const left = tallyWith(30_447);
    for (const name of ['red', 'green', 'blue'] as const)
      expectWithin(left.tally[name], left.withoutLast, 1e-12);
    expectWithin(left.tally.speckShare, 0.01, 1e-12);
  },
);
