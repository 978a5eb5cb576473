import { linearScale } from './linear-scale.ts';

export interface StopAxis {
  /** Drawing position of a level in stops. */
  readonly at: (ev: number) => number;
  /** Levels to mark, whole multiples of a tenth, with their positions. */
  readonly ticks: readonly { readonly ev: number; readonly at: number }[];
  readonly lowestEv: number;
}

const TENTHS_APART = [1, 2, 5, 10, 20, 50, 100];

/**
 * The scale of stops that both cross-sections share: 0 at `hottestAt`, the lowest level at `lowestAt`. It reaches a
 * little beyond the spread and the tolerance, whichever is more. Ticks lie at least `tickSpacing` apart; where that
 * leaves none but 0, one more stands at the lowest whole tenth, for a scale with a single figure tells no length.
 */
export function stopAxis(
  { spreadEv, toleranceEv }: { spreadEv: number; toleranceEv: number },
  { hottestAt, lowestAt, tickSpacing }: { hottestAt: number; lowestAt: number; tickSpacing: number },
): StopAxis {
  const lowestEv = -Math.max(spreadEv, toleranceEv, 0.1) * 1.12;
  const scale = linearScale([0, lowestEv], [hottestAt, lowestAt]);
  const tenthsShown = Math.floor(-lowestEv * 10 + 1e-9);
  const tenthAt = Math.abs(lowestAt - hottestAt) / (-lowestEv * 10);
  const step = TENTHS_APART.find((tenths) => tenths * tenthAt >= tickSpacing) ?? tenthsShown;
  const tenths = [0];
  for (let tenth = step; tenth <= tenthsShown; tenth += step) tenths.push(tenth);
  if (tenths.length === 1) tenths.push(tenthsShown);
  const ticks = tenths.map((tenth) => ({ ev: tenth === 0 ? 0 : -tenth / 10, at: scale(-tenth / 10) }));
  return { at: (ev) => scale(ev), ticks, lowestEv };
}
