import { scaleLinear } from 'd3-scale';

export interface StopAxis {
  /** Drawing position of a level in stops. */
  readonly at: (ev: number) => number;
  /** Levels to mark, whole multiples of a tenth, with their positions. */
  readonly ticks: readonly { readonly ev: number; readonly at: number }[];
  readonly lowestEv: number;
}

/**
 * The scale of stops that both cross-sections share: 0 at `hottestAt`, the lowest level at `lowestAt`. It reaches a
 * little beyond the spread and the tolerance, whichever is more; ticks lie at least `tickSpacing` apart.
 */
export function stopAxis(
  { spreadEv, toleranceEv }: { spreadEv: number; toleranceEv: number },
  { hottestAt, lowestAt, tickSpacing }: { hottestAt: number; lowestAt: number; tickSpacing: number },
): StopAxis {
  const lowestEv = -Math.max(spreadEv, toleranceEv, 0.1) * 1.12;
  const scale = scaleLinear([0, lowestEv], [hottestAt, lowestAt]);
  const step = tenthsBetweenTicks(-lowestEv * 10, Math.abs(lowestAt - hottestAt) / tickSpacing);
  const ticks = [];
  for (let tenth = 0; tenth >= lowestEv * 10; tenth -= step)
    ticks.push({ ev: tenth === 0 ? 0 : tenth / 10, at: scale(tenth / 10) });
  const apart = ticks.filter(({ at }) => at === hottestAt || Math.abs(at - hottestAt) >= tickSpacing);
  return { at: (ev) => scale(ev), ticks: apart, lowestEv };
}

/** Tenths of a stop from tick to tick: the least that fits, but never more than the axis shows. */
function tenthsBetweenTicks(tenthsShown: number, mostTicks: number): number {
  const steps = [1, 2, 5, 10, 20, 50, 100].filter((each) => each <= tenthsShown);
  return steps.find((each) => each * mostTicks >= tenthsShown) ?? steps.at(-1) ?? 1;
}
