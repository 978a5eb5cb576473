import { describe, expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { discRows, panelRows, rectangleRows } from '../../published/face-light-rows.ts';
import type { LightMaker } from '../../published/light-row.ts';
import {
  cosineRows,
  flattestRows,
  sheetRows,
  sideLightRows,
  twoLightRows,
} from '../../published/point-light-rows.ts';
import { EVEN_SET } from './even-set.ts';
import { lampRays } from './lamp-rays.ts';
import { seenLight } from './seen-light.ts';
import { plainLamp } from './studio-set.ts';

/*
 * Textbook radiometry, table by table; tests/published/SOURCES.md says where each figure comes from.
 */

const MM = 1000;
const POINT = { kind: 'disc', diameterMm: 0.01 } as const;

const studio: LightMaker = ({ x = 0, y = 0, distance, aimX = x, face, beam, behindSheet = false }) => {
  const lamp = plainLamp({
    xMm: x * MM,
    yMm: y * MM,
    distanceMm: distance * MM,
    aimXMm: aimX * MM,
    aimYMm: y * MM,
    beam: { kind: 'cosine-power', power: beam === 'constant' ? 0 : 1 },
    face:
      face === undefined
        ? POINT
        : face.kind === 'disc'
          ? { kind: 'disc', diameterMm: face.diameter * MM }
          : { kind: 'rectangle', widthMm: face.width * MM, heightMm: face.height * MM },
  });
  const background = behindSheet
    ? ({ kind: 'sheet', forwardShare: 0, lobeDeg: 25 } as const)
    : ({ kind: 'wall' } as const);
  const light = seenLight({ ...EVEN_SET, background }, lampRays(lamp, behindSheet ? -1 : 1));
  return (spotX, spotY) => light(spotX * MM, spotY * MM);
};

describe('the studio agrees with the tables to half a unit of the last digit', () => {
  test.each([
    ...cosineRows(),
    ...sideLightRows(),
    ...twoLightRows(),
    ...flattestRows(),
    ...sheetRows(),
    ...rectangleRows(),
    ...discRows(),
    ...panelRows(4),
    ...panelRows().filter(({ sizeOverDistance }) => sizeOverDistance <= 1),
  ])('$name: $printed', ({ workedOut, printed, halfUnit }) => {
    expectWithin(workedOut(studio), printed, halfUnit);
  });
});

test('a square panel larger than it is far is too much for eight points each way, but not by much', () => {
  const close = panelRows().filter(({ sizeOverDistance }) => sizeOverDistance > 1);
  const off = close.map(({ name, workedOut, printed }) => {
    const share = workedOut(studio) / printed - 1;
    console.log(`measured: studio, whole ${name}: ${(100 * share).toFixed(4)} % off`);
    return Math.abs(share);
  });
  expect(off).toHaveLength(2);
  expect(off[0]).toBeLessThan(0.005); // four times as large as far
  expect(off[1]).toBeLessThan(1e-5); // twice
});
