import type { FigurePlusMinus } from './figure-plus-minus.ts';

/** Half-widths together with those of another source that has nothing to do with the first: their squares add up. */
export function widened(plusMinus: FigurePlusMinus, more: Partial<FigurePlusMinus>): FigurePlusMinus {
  const wider = { ...plusMinus };
  for (const [figure, halfWidth] of Object.entries(more) as [keyof FigurePlusMinus, number][])
    wider[figure] = Math.hypot(plusMinus[figure], halfWidth);
  return wider;
}
