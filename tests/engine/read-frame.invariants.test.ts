import { describe, expect, test } from 'vitest';
import { expectWithin } from '../expect-within.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { exposedBy, randomField } from '../synthetic/known-field.ts';
import type { RenderedFrame } from '../synthetic/render-frame.ts';
import { storedAs } from '../synthetic/turn-frame.ts';
import { read, readingOf, render } from './blank-render.ts';
import { WELL_ELECTRONS } from './known-frames.ts';
import { distances, furthest, inWords, keepWorst, turnDeg } from './reading-distances.ts';

/**
 * What 0.001 EV comes to: 0.1 EV in one channel moves u′v′ by 0.0049 at the most (computed from the sRGB primaries), so
 * 0.001 EV by 0.00005, which is 0.1 mired (10 mired are 0.0047 u′v′); an angle of a slope of 1 EV by 0.06°.
 */
const EQUAL_OF_A_THOUSANDTH: Readonly<Record<string, number>> = {
  ev: 0.001,
  uv: 0.00005,
  mired: 0.1,
  duv: 0.00005,
  deg: 0.06,
};

test('no figure moves by more than 0.001 EV or its equal from 0 to −4 EV of exposure', async () => {
  const worst: Record<string, number> = {};
  for (const seed of [3, 21]) {
    const { field } = randomField(seed, { spreadEv: seed === 3 ? 3 : 1, peak: 0.9 });
    const full = await readingOf(toPng(render(field)));
    for (const stops of [-1, -2, -3, -4])
      keepWorst(worst, distances(full, await readingOf(toPng(render(exposedBy(field, stops))))));
  }
  console.log(`measured: from 0 to −4 EV, furthest apart: ${inWords(worst)}`);
  for (const [name, value] of Object.entries(worst))
    expect(value, name).toBeLessThanOrEqual(EQUAL_OF_A_THOUSANDTH[name.split(' ').at(-1)!]!);
});

/** The picture itself turned clockwise by 90°, as if it had been taken so: orientation stays 1. */
const turnedClockwise = (frame: RenderedFrame) => storedAs(frame, 8);

test('a picture turned by 90° transposes the maps and turns the angles', async () => {
  const { field } = randomField(5, { family: 'quadratic', spreadEv: 1.5 });
  const frame = render(field, { widthPx: 490, heightPx: 330 }); // cells of uneven pixels
  const upright = await readingOf(toPng(frame));
  const turned = await readingOf(toPng(turnedClockwise(frame)));
  const { columns, rows } = upright.grid;
  expect([turned.grid.columns, turned.grid.rows]).toEqual([rows, columns]);
  /** Cell (column, row) of the upright picture lies at (rows − 1 − row, column) of the turned one. */
  const turnedBack = (map: readonly (number | null)[]) =>
    map.map((_, i) => map[(i % columns) * rows + (rows - 1 - Math.floor(i / columns))]!);
  const worst = distances(upright, {
    ...turned,
    falloff: { ...turned.falloff, evMap: turnedBack(turned.falloff.evMap) },
    tint: {
      ...turned.tint,
      uPrimeMap: turnedBack(turned.tint.uPrimeMap),
      vPrimeMap: turnedBack(turned.tint.vPrimeMap),
    },
    gradient: { ...turned.gradient, angleDeg: turned.gradient.angleDeg! - 90 },
  });
  const tintTurn = turnDeg(upright.tintGradient.angleDeg! + 90, turned.tintGradient.angleDeg!);
  console.log(`measured: after a turn by 90°: ${inWords(worst)}, tint gradient deg ${Math.abs(tintTurn)}`);
  for (const [name, value] of Object.entries(worst)) expect(value, name).toBeLessThan(1e-6);
  expectWithin(tintTurn, 0, 1e-6);
  const { brightestAt, darkestAt } = upright.falloff;
  expectWithin(turned.falloff.brightestAt.x, 1 - brightestAt.y, 1e-12);
  expectWithin(turned.falloff.brightestAt.y, brightestAt.x, 1e-12);
  expectWithin(turned.falloff.darkestAt.x, 1 - darkestAt.y, 1e-12);
  expectWithin(turned.gradient.to.x, 1 - upright.gradient.to.y, 1e-6);
  expectWithin(turned.gradient.to.y, upright.gradient.to.x, 1e-6);
  // slopes are per frame width, and the frame's width is another side now
  expectWithin(
    turned.falloff.steepestEvPerFrameWidth / upright.falloff.steepestEvPerFrameWidth,
    330 / 490,
    1e-9,
  );
});

describe('all eight Exif orientations of one picture read alike', () => {
  const { field } = randomField(12, { spreadEv: 1.2 });

  test('to 1e-9 in every figure, from PNGs, whose codes are the same', async () => {
    const frame = render(field, { widthPx: 245, heightPx: 162, electronsAtFull: WELL_ELECTRONS });
    const upright = await readingOf(toPng(frame));
    const worst: Record<string, number> = {};
    for (let orientation = 2; orientation <= 8; orientation++) {
      const turned = await readingOf(toPng(storedAs(frame, orientation), { exif: { orientation } }));
      expect(turned.frame).toMatchObject({ orientation, widthPx: 245, heightPx: 162 });
      expect(turned.grid).toEqual(upright.grid);
      keepWorst(worst, distances(upright, turned));
      expect(turned.verdict).toEqual(upright.verdict);
      expect(turned.falloff.brightestAt).toEqual(upright.falloff.brightestAt);
    }
    console.log(`measured: over the orientations of a PNG: ${inWords(worst)}`);
    for (const [name, value] of Object.entries(worst)) expect(value, name).toBeLessThan(1e-9);
  });

  test('within its own ± from JPEGs, whose blocks lie elsewhere when turned', async () => {
    const frame = render(field, { widthPx: 245, heightPx: 162, bits: 8, electronsAtFull: WELL_ELECTRONS });
    const files = await Promise.all(
      [1, 2, 3, 4, 5, 6, 7, 8].map((exifOrientation) =>
        toJpeg(storedAs(frame, exifOrientation), { quality: 92, chroma: '4:4:4', exifOrientation }),
      ),
    );
    const upright = await readingOf(files[0]!);
    let worst = 0;
    for (const file of files.slice(1)) {
      const turned = await readingOf(file);
      expect(turned.grid).toEqual(upright.grid);
      worst = Math.max(worst, furthest(turned.falloff.evMap, upright.falloff.evMap));
      expectWithin(
        turned.falloff.spreadEv,
        upright.falloff.spreadEv,
        turned.falloff.plusMinusEv + upright.falloff.plusMinusEv,
      );
      expectWithin(turnDeg(upright.gradient.angleDeg!, turned.gradient.angleDeg!), 0, 1);
    }
    console.log(
      `measured: over the orientations of a JPEG no cell moves by more than ${worst.toFixed(4)} EV`,
    );
    expect(worst).toBeLessThan(0.02);
  });
});

test('the same file reads the same, to the last bit, again and after another file', async () => {
  const bytes = toPng(render(randomField(4).field, { electronsAtFull: WELL_ELECTRONS }));
  const first = await read([bytes]);
  await readingOf(toPng(render(randomField(9).field, { widthPx: 96, heightPx: 64 })));
  expect(await read([bytes])).toEqual(first);
});
