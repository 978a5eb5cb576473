import { describe, expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { discRows, panelRows, rectangleRows } from '../../published/face-light-rows.ts';
import {
  cosineRows,
  flattestRows,
  sheetRows,
  sideLightRows,
  twoLightRows,
} from '../../published/point-light-rows.ts';
import { FEW_POINTS, lightOfModel as model } from './light-of-model.ts';

/*
 * Textbook radiometry, table by table; tests/published/SOURCES.md says where each figure comes from.
 */

describe('the model of a light agrees with the tables to half a unit of the last digit', () => {
  test.each([
    ...cosineRows(),
    ...sideLightRows(),
    ...twoLightRows(),
    ...flattestRows(),
    ...sheetRows(),
    ...rectangleRows(),
    ...panelRows(16),
  ])('$name: $printed', ({ workedOut, printed, halfUnit }) => {
    expectWithin(workedOut(model), printed, halfUnit);
  });
});

describe('a face summed whole from its few points agrees', () => {
  test.each([...discRows(), ...panelRows().filter(({ sizeOverDistance }) => sizeOverDistance <= 1)])(
    '$name: $printed',
    ({ workedOut, printed, halfUnit }) => {
      expectWithin(workedOut(model), printed, Math.max(halfUnit, FEW_POINTS * Math.abs(printed)));
    },
  );

  test('to 0.2 % where a square panel is twice as large as it is far', () => {
    const close = panelRows().filter(({ sizeOverDistance }) => sizeOverDistance > 1);
    const off = close.map(({ name, sizeOverDistance, workedOut, printed }) => {
      const share = Math.abs(workedOut(model) / printed - 1);
      console.log(`measured: model, whole ${name}: ${(100 * share).toFixed(2)} % off`);
      return { sizeOverDistance, share };
    });
    // four times as large is beyond its points, as no light stands; in pieces it is right above
    expect(off.find(({ sizeOverDistance }) => sizeOverDistance === 2)!.share).toBeLessThan(0.002);
  });
});
