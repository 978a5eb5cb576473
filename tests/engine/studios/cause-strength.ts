import { broughtByLights } from '../../../src/engine/diagnosis/cast.ts';
import type { Finding } from '../../../src/engine/reading.ts';
import type { TrueShare } from '../../synthetic/random/true-shares.ts';
import type { StudioReading } from './studio-frames.ts';

/** The tolerance's own scale, on which stops and colour are weighed against each other: the limits of "even" by default. */
const LIMIT_EV = 0.3;
const LIMIT_UV = 0.0047;

/** Causes within 0.05 EV of each other are tied. */
export const TIE = 0.05 / LIMIT_EV;

/** How much a cause takes of the tolerance in truth; a tint all over counts by the cast that it makes. */
export function trueStrength({ kind, ev, tintDeltaUv, castDeltaUv }: TrueShare): number {
  return Math.max(ev / LIMIT_EV, (kind === 'tinted-all-over' ? castDeltaUv : tintDeltaUv) / LIMIT_UV);
}

/** How much it takes after the reading. */
export function foundStrength(
  { kind, ev }: Finding,
  { frame, set }: Pick<StudioReading, 'frame' | 'set'>,
): number {
  if (kind === 'tinted-all-over') return broughtByLights(frame.measurement.cast, set!) / LIMIT_UV;
  const deltaUv = set?.causes.find(({ cause }) => cause === kind)?.deltaUv ?? 0;
  return Math.max((ev ?? 0) / LIMIT_EV, deltaUv / LIMIT_UV);
}
