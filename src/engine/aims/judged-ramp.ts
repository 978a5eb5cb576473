import type { Aim } from '../aim.ts';
import { judgeEven } from '../diagnosis/verdict.ts';
import { regionGeometry } from '../maps/cell-plane.ts';
import { falloff as falloffOf } from '../maps/falloff.ts';
import type { Falloff, Judgement, Measurement } from '../reading.ts';
import type { AimedInput } from './aimed-reading.ts';

type RampAim = Extract<Aim, { kind: 'ramp' }>;

/** How a background's light compares with the ramp that was asked for. */
export interface JudgedRamp {
  readonly kind: 'ramp';
  /** The aim it was judged by. */
  readonly aim: RampAim;
  /** How far the fitted ramp is turned from the one asked for: −180 to 180, positive clockwise; `null` without a direction. */
  readonly turnDeg: number | null;
  readonly turnPlusMinusDeg: number | null;
  /** Stops that the fitted ramp has more than the one asked for, whatever their directions. */
  readonly moreEv: number;
  readonly morePlusMinusEv: number;
  /** The falloff that is left once the ramp asked for is taken out. */
  readonly leftOver: Omit<Falloff, 'evMap'>;
  /** Whether what is left over stays within the tolerance. */
  readonly verdict: Judgement;
}

/** Judges a frame against a ramp: what is left over counts as an even background's falloff does. */
export function judgedRamp(aim: RampAim, { measurement, grid, tolerance }: AimedInput): JudgedRamp {
  const { gradient, falloff } = measurement;
  const { evMap, ...leftOver } = leftOverFalloff(aim, measurement, grid);
  return {
    kind: 'ramp',
    aim,
    turnDeg: gradient.angleDeg === null ? null : ((gradient.angleDeg - aim.angleDeg + 540) % 360) - 180,
    turnPlusMinusDeg: gradient.plusMinusDeg,
    moreEv: gradient.ev - aim.ev,
    morePlusMinusEv: gradient.plusMinusEv,
    leftOver,
    verdict: judgeEven({ ...falloff, ...leftOver, evMap }, tolerance),
  };
}

/**
 * The falloff of the light over the ramp that was asked for. Its ± is that of the falloff as it stands: noise is the same,
 * and a tone curve that is not known bends the ramp as it bends any other falloff of that size.
 */
function leftOverFalloff(
  { angleDeg, ev }: RampAim,
  { region, falloff }: Measurement,
  { columns, rows, cellWidthPx, cellHeightPx }: AimedInput['grid'],
): Falloff {
  const { halfWidth, halfHeight } = regionGeometry(region, columns, rows, cellWidthPx, cellHeightPx);
  const angle = (angleDeg * Math.PI) / 180;
  const [right, down] = [Math.cos(angle), Math.sin(angle)];
  // from corner to corner along its direction, as the fitted ramp is told
  const reach = Math.abs(right) * halfWidth + Math.abs(down) * halfHeight;
  const luminance = Float64Array.from(falloff.evMap, (stops, i) => {
    if (stops === null) return Number.NaN;
    const x = ((2 * (i % columns) + 1) / columns - 1) * halfWidth;
    const y = ((2 * Math.floor(i / columns) + 1) / rows - 1) * halfHeight;
    return 2 ** (stops - (ev / 2) * ((x * right + y * down) / reach));
  });
  let [brightestCell, darkestCell] = [-1, -1];
  luminance.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    if (brightestCell < 0 || value > luminance[brightestCell]!) brightestCell = i;
    if (darkestCell < 0 || value < luminance[darkestCell]!) darkestCell = i;
  });
  return falloffOf({
    ...{ columns, rows, region, luminance, brightestCell, darkestCell },
    cellWidth: (2 * halfWidth) / columns,
    cellHeight: (2 * halfHeight) / rows,
    isLowerBound: falloff.isLowerBound,
    plusMinusEv: falloff.plusMinusEv,
    cellPlusMinusEv: falloff.cellPlusMinusEv,
  });
}
