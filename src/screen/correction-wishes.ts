import type { Treatment } from '../engine/correct/correct-light.ts';
import type { CarriedNotes } from '../engine/correct-frame.ts';
import type { WrittenFormat } from '../engine/export/write-picture.ts';
import type { ProfileReference } from '../engine/profile/profile.ts';

/** How frames are to be corrected, as the sentence says it. */
export interface CorrectionWishes {
  readonly treat: Treatment;
  /** The level that the background is brought to. */
  readonly level: ProfileReference | 'below-white';
  /** Stops below white, where the level is told so. */
  readonly belowWhiteEv: number;
  readonly takesCastOut: boolean;
  readonly writtenAs: WrittenFormat;
  /** What of the frame's own notes the corrected file carries on. */
  readonly notes: CarriedNotes;
  readonly into: 'downloads' | 'folder';
}

export const FIRST_WISHES: CorrectionWishes = {
  treat: 'everything',
  level: 'mean',
  belowWhiteEv: 0.3,
  takesCastOut: true,
  writtenAs: 'tiff',
  notes: 'all',
  into: 'downloads',
};

/** What a profile is made with for these wishes. */
export function profileWishes({ level, takesCastOut }: CorrectionWishes) {
  return { reference: level === 'below-white' ? ('mean' as const) : level, neutral: takesCastOut };
}

/** What a frame is corrected with, beside the profile. */
export function lightWishes({ treat, level, belowWhiteEv, takesCastOut }: CorrectionWishes) {
  return { treat, neutral: takesCastOut, levelEv: level === 'below-white' ? belowWhiteEv : null };
}
