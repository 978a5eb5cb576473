import type { RivalCauses } from '../engine/lamps/cause-shares.ts';
import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { Finding } from '../engine/reading.ts';

type SecondFrameKind = SecondFrameRole['kind'];

/** What a report says of what one frame can't tell. */
export interface InDoubt {
  readonly reading: { readonly findings: readonly Pick<Finding, 'kind' | 'ev'>[] };
  readonly set: { readonly rivals: readonly Pick<RivalCauses, 'causes' | 'ev'>[] } | null;
}

/**
 * The second frame that would settle the first thing that a report can't tell, one that is not in use already where
 * there is such a one; `null` where nothing is in doubt.
 */
export function settlingFrame(
  { reading, set }: InDoubt | FrameReport,
  used: readonly SecondFrameKind[],
): SecondFrameKind | null {
  // frames that do not go together are a doubt that no further frame settles: it has no stops
  const doubt = reading.findings.find(({ kind, ev }) => kind === 'cannot-tell' && ev !== null);
  if (doubt === undefined) return null;
  // a finding about causes that look alike takes what these take; any other is about the room's light
  const rivals = set?.rivals.find(({ ev }) => ev === doubt.ev);
  const settling = rivals === undefined ? ROOM : rivals.causes.includes('lens-falloff') ? LENS : LIGHT;
  return settling.find((kind) => !used.includes(kind)) ?? settling[0];
}

/** Best first. */
type Settling = readonly [SecondFrameKind, ...SecondFrameKind[]];
const ROOM: Settling = ['lamp-off'];
const LIGHT: Settling = ['shifted'];
/** Stopping down brings back but a part of what a lens takes: what its barrel cuts off. */
const LENS: Settling = ['shifted', 'stopped-down'];
