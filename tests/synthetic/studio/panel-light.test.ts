import { test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_PANEL } from './even-set.ts';
import { panelLight } from './panel-light.ts';

test('a panel hotter in the middle falls to its corners by what was asked, as the square of the way', () => {
  const light = panelLight({ ...EVEN_PANEL, middleEv: 0.4 });
  for (const side of [-1, 1]) expectWithin(Math.log2(light(side * 400, 300) / light(0, 0)), -0.4, 1e-9);
  expectWithin(Math.log2(light(200, -150) / light(0, 0)), -0.1, 1e-9);
});

test('a panel lit from its sides is hottest there, by the hyperbolic cosine of how far light carries', () => {
  const light = panelLight({ ...EVEN_PANEL, carriesMm: 400 });
  expectWithin(light(400, 50) / light(0, 50), Math.cosh(1), 1e-9);
  expectWithin(light(-400, 50), 1, 1e-9);
});
