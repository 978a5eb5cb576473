import type { Profile } from '../engine/profile/profile.ts';
import type { CorrectionWishes } from './correction-wishes.ts';
import { lightWishes } from './correction-wishes.ts';
import { sameData } from './same-data.ts';
import type { SubjectFrame } from './subject-frame.ts';

/** What a correction was last tried with. */
export interface TriedCorrection {
  readonly frame: SubjectFrame['id'];
  readonly brush: SubjectFrame['brush'];
  readonly profile: Profile;
  readonly light: ReturnType<typeof lightWishes>;
}

export function triedWith(
  { id, brush }: SubjectFrame,
  profile: Profile,
  wishes: CorrectionWishes,
): TriedCorrection {
  return { frame: id, brush, profile, light: lightWishes(wishes) };
}

/** Whether trying again would show nothing else. */
export function isTriedWith(
  tried: TriedCorrection | null,
  { id, brush }: SubjectFrame,
  profile: Profile | null,
  wishes: CorrectionWishes,
): boolean {
  return (
    tried !== null &&
    tried.frame === id &&
    tried.profile === profile &&
    tried.brush === brush &&
    sameData(tried.light, lightWishes(wishes))
  );
}
