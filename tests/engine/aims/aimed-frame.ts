import type { Aim } from '../../../src/engine/aim.ts';
import { type AimedReading, aimedReading } from '../../../src/engine/aims/aimed-reading.ts';
import { backgroundLevel } from '../../../src/engine/exposure/background-level.ts';
import type { MeasuredFrame } from '../../../src/engine/measure-frame.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { toPng } from '../../synthetic/encode.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import type { RenderOptions } from '../../synthetic/render-frame.ts';
import { render } from '../blank-render.ts';
import { measureBytes } from '../known-frames.ts';

/** What a measured frame is worth for an aim. */
export function aimedOf<A extends Aim>(
  aim: A,
  { measurement, grid, light }: MeasuredFrame,
  tolerance: Tolerance = DEFAULT_TOLERANCE,
): Extract<AimedReading, { kind: A['kind'] }> {
  const level = backgroundLevel(grid, light);
  return aimedReading(aim, { measurement, grid, level, evidence: light, tolerance }) as Extract<
    AimedReading,
    { kind: A['kind'] }
  >;
}

/** A field photographed in 16 bits of linear light, and measured. */
export function measuredField(
  field: KnownField,
  options: Partial<RenderOptions> = {},
): Promise<MeasuredFrame> {
  return measureBytes(toPng(render(field, { curve: 'linear', ...options }), { gamma: 1 }));
}
