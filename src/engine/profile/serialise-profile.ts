import type { Profile } from './profile.ts';

/** The profile as the text of its JSON file; `parseProfile` gives it back equal. */
export function serialiseProfile(profile: Profile): string {
  return JSON.stringify(profile);
}
