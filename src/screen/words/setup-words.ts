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

/** How each light of the arrangement is spoken of, camera left first. */
export function lightNames(arrangement: Setup['arrangement']): readonly string[] {
  if (arrangement === 'two-lamps') return ['the left light', 'the right light'];
  return arrangement === 'panel' ? ['the panel'] : ['the light'];
}

/** What follows a light's distance: where it is measured from. */
export const FROM_WORDS: Record<Setup['arrangement'], string> = {
  'behind-sheet': 'back',
  bounced: 'from the wall',
  'two-lamps': 'from the background',
  panel: '',
};

/** What stands between a light's distance and how far it can go at most. */
export function reachWords(arrangement: Setup['arrangement']): string {
  return arrangement === 'two-lamps' ? '; they can go to' : ' and can go to';
}

/** The set-up with one light's distance changed; a list of nothing but unknown ones is empty. */
export function withLightDistance(setup: Setup, lamp: number, mm: number | null): Setup {
  const { length } = lightNames(setup.arrangement);
  const distances = Array.from({ length }, (_, i) => (i === lamp ? mm : (setup.lampDistanceMm[i] ?? null)));
  return { ...setup, lampDistanceMm: distances.every((each) => each === null) ? [] : distances };
}

/** The set-up in another arrangement, with the distances of as many lights as it has. */
export function withArrangement(setup: Setup, arrangement: Setup['arrangement']): Setup {
  const { length } = lightNames(arrangement);
  return { ...setup, arrangement, lampDistanceMm: setup.lampDistanceMm.slice(0, length) };
}

type Room = keyof Setup['room'];

/** The room round the frame's centre that a light can be moved in; how far back it can go is in the sentence itself. */
export const ROOM_WORDS: readonly (readonly [Room, word: string, name: string])[] = [
  ['leftMm', 'left', 'Room to the left of the frame’s centre'],
  ['rightMm', 'right', 'Room to the right of the frame’s centre'],
  ['upMm', 'up', 'Room above the frame’s centre'],
  ['downMm', 'down', 'Room below the frame’s centre'],
];
