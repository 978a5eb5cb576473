import { expect, test } from 'vitest';
import type { FoundMatte } from '../../../../src/engine/correct/matte/find-matte.ts';
import { matteDoubts } from '../../../../src/engine/correct/matte/matte-doubts.ts';

const sure: FoundMatte = {
  columns: 10,
  rows: 10,
  background: new Uint8Array(100).fill(1),
  pxPerCell: 4,
  exposureEv: [-0.13, -0.13, -0.12],
  shiftPx: { right: 3, down: -8 },
};

test('a matte is doubted where hardly anything is background, the colour of the light changed or the camera moved far', () => {
  expect(matteDoubts(sure)).toEqual([]);
  expect(matteDoubts({ ...sure, shiftPx: null })).toEqual([]);
  expect(matteDoubts({ ...sure, background: new Uint8Array(100).fill(1, 0, 3) })).toEqual([
    expect.stringMatching(/^Only 3 % of the frame/),
  ]);
  expect(matteDoubts({ ...sure, exposureEv: [-0.05, -0.13, -0.2] })).toEqual([
    expect.stringMatching(/red is 0\.08 stop stronger and its blue 0\.07 stop weaker/),
  ]);
  expect(matteDoubts({ ...sure, shiftPx: { right: 0, down: -19 } })).toEqual([
    expect.stringMatching(/moved by 18 pixels or more/),
  ]);
});
