import type { SecondFrame, SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { Move } from '../engine/moves/move.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { FrameFacts } from '../engine/reading.ts';

/** A second frame of a take's set, with the facts of its file. */
export interface HeldSecondFrame extends SecondFrame {
  readonly frame: FrameFacts;
}

/** What was measured of a second frame, as it is kept beside its take. */
export function heldSecondFrame(role: SecondFrameRole, { samples, reading }: FrameReport): HeldSecondFrame {
  return { role, samples, frame: reading.frame };
}

/** The second frames with one more, in place of an earlier one of its kind. */
export function withSecondFrame(
  held: readonly HeldSecondFrame[],
  next: HeldSecondFrame,
): readonly HeldSecondFrame[] {
  return [...withoutSecondFrame(held, next.role.kind), next];
}

export function withoutSecondFrame(
  held: readonly HeldSecondFrame[],
  kind: SecondFrameRole['kind'],
): readonly HeldSecondFrame[] {
  return held.filter(({ role }) => role.kind !== kind);
}

/** Moves that leave the room's light, and the colour in which the camera shows it, as they were. */
const LEAVE_THE_ROOM: readonly Move['kind'][] = [
  ...(['slide-lamp', 'lamp-distance', 'turn-lamp', 'balance-lamps', 'gel', 'lamp-colour'] as const),
  'expose',
];

/**
 * Which of a take's second frames hold for the next one too: none where that begins a new set-up (`null`), all where nothing was moved. Where no more
 * was touched than the lights and the exposure, the room's light alone is as it was; its level counts, so both files
 * have to say how they were exposed.
 */
export function heldOver(
  held: readonly HeldSecondFrame[],
  done: readonly Move[] | null,
  { samples, reading }: Pick<FrameReport, 'samples' | 'reading'>,
): readonly HeldSecondFrame[] {
  if (done === null) return [];
  const ofOneShape = held.filter(({ frame }) => haveOneShape(frame, reading.frame));
  if (done.length === 0) return ofOneShape;
  if (!done.every(({ kind }) => LEAVE_THE_ROOM.includes(kind))) return [];
  return ofOneShape.filter(
    ({ role, samples: { exposureEv } }) =>
      role.kind === 'lamp-off' && exposureEv !== null && samples.exposureEv !== null,
  );
}

/** Cameras and converters trim a file by some pixels; a turned camera, or another crop, is far beyond this. */
const SAME_SHAPE = 0.01;

/** Whether two frames are of one shape, so that a place in the one is the same place in the other. */
export function haveOneShape(a: FrameFacts, b: FrameFacts): boolean {
  return Math.abs((a.widthPx * b.heightPx) / (a.heightPx * b.widthPx) - 1) < SAME_SHAPE;
}

/** Whether two frames were read from one file, as far as the digest of their bytes is known. */
export function areOneFile(a: FrameFacts, b: FrameFacts): boolean {
  return a.sha256 !== null && a.sha256 === b.sha256;
}
