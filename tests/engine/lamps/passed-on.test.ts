import { expect, test } from 'vitest';
import { lensShare } from '../../../src/engine/lamps/lens-share.ts';
import { passedOn } from '../../../src/engine/lamps/passed-on.ts';
import { rimShare } from '../../../src/engine/lamps/rim-share.ts';
import { tristimulus } from '../../../src/engine/lamps/tristimulus.ts';
import { expectWithin } from '../../expect-within.ts';
import { setOf, WHITE } from './set-of.ts';

const SPOTS = { x: Float64Array.of(-0.5, 0, 0.2, 0.5), y: Float64Array.of(-1 / 3, 0, 0.25, 1 / 3) };
const COUNT = SPOTS.x.length;

const shares = (changes: Parameters<typeof setOf>[1]) => {
  const into = new Float64Array(3 * COUNT);
  passedOn(setOf([], changes), SPOTS, into);
  return into;
};

test('nothing before the light lets all of it through', () => {
  expect([...shares({})]).toEqual(new Array(3 * COUNT).fill(1));
});

test('a lens and a rim take their shares of all three alike', () => {
  const lens = { squareEv: 0.3, fourthEv: 0.2, corner: WHITE };
  const rim = { left: 0.05, right: -0.2, top: -0.1, bottom: 0.02, lossEv: 2, soft: 0.1 };
  const found = shares({ lens, rim });
  for (let i = 0; i < COUNT; i++) {
    const [x, y] = [SPOTS.x[i]!, SPOTS.y[i]!];
    const wanted = lensShare(lens, 2 / 3)(x, y) * rimShare(rim, 2 / 3)(x, y);
    for (let c = 0; c < 3; c++) expectWithin(found[c * COUNT + i]!, wanted, 1e-12);
  }
});

test('a lens’s corner has its whole change of colour, and no change of luminance', () => {
  const corner = { mired: 6, duv: 0.001 };
  const found = shares({ lens: { squareEv: 0, fourthEv: 0, corner } });
  const [white, changed] = [tristimulus(WHITE), tristimulus(corner)];
  expectWithin(found[0]!, changed[0] / white[0], 1e-12);
  expectWithin(found[COUNT]!, 1, 1e-12);
  expectWithin(found[2 * COUNT]!, changed[2] / white[2], 1e-12);
  expectWithin(found[1]!, 1, 1e-12); // the middle
});

test('a tinted surface goes from half of its tint less to half of it more, and darker with it', () => {
  const tint = {
    x: 0,
    y: 0,
    rightMired: 20,
    downMired: 0,
    duvPerMired: 1e-4,
    lossEvPerMired: 0.004,
    soft: 0.05,
  };
  const found = shares({ tint });
  const [white, full] = [tristimulus(WHITE), tristimulus({ mired: 20, duv: 0.002 })];
  const [left, right] = [0, 3]; // far beyond where it is soft
  expectWithin(found[COUNT + right]! / found[COUNT + left]!, 2 ** -0.08, 1e-9);
  const ofX = (i: number) => found[i]! / found[COUNT + i]!;
  expectWithin(ofX(right) / ofX(left), full[0] / white[0], 1e-9);
  expectWithin(ofX(1), 1, 1e-12);
});
