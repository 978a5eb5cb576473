import type { Setup } from '../../engine/setup.ts';

/** How the set-up sentence begins. */
export const ARRANGEMENT_WORDS: Record<Setup['arrangement'], string> = {
  'behind-sheet': 'A light behind a sheet',
  bounced: 'A light bounced off a wall',
  'two-lamps': 'Two lights on a background',
  panel: 'A light panel',
};

export const LIGHT_WORDS: Record<'flash' | 'continuous' | 'unknown', string> = {
  unknown: 'flash or continuous',
  flash: 'flash',
  continuous: 'continuous',
};

export function standsWords(arrangement: Setup['arrangement']): string {
  if (arrangement === 'two-lamps') return 'the lights stand';
  return arrangement === 'panel' ? 'the panel stands' : 'the light stands';
}

/** One typed distance for every light of the arrangement; none where it is unknown. */
export function lampDistances(arrangement: Setup['arrangement'], mm: number | null): (number | null)[] {
  if (mm === null) return [];
  return arrangement === 'two-lamps' ? [mm, mm] : [mm];
}
