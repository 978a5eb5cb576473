import type { Setup } from '../setup.ts';

const RULES = 'Local rules and the maker’s instructions come first.';

/** What to mind when a head on its stand is moved. All of it common practice, no published source. */
export function cautionForMovingLamp(light: Setup['light']): string {
  return [
    'Weight the stand before you move or raise it; keep mains leads clear of feet and water.',
    ...heat(light),
    ...flash(light),
    RULES,
  ].join(' ');
}

/** What to mind when a gel comes near a head. */
export const cautionForGel = cautionForDiffusion;

/** What to mind when cloth or a gel comes near a head. */
export function cautionForDiffusion(light: Setup['light']): string {
  return [
    ...heat(light),
    light === 'flash'
      ? 'Keep the maker’s clearance between the head’s modelling light and cloth or gels.'
      : '',
    RULES,
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

/** What to mind when a flag goes up, or the room's light off. */
export function cautionForBlocking(light: Setup['light']): string {
  return [
    'Weight the stand of a flag; with the room’s light off, keep leads clear of feet.',
    cautionForDiffusion(light),
  ].join(' ');
}

function heat(light: Setup['light']): string[] {
  if (light === 'flash') return [];
  return ['Let a hot head cool, and keep the maker’s clearance between it and cloth or gels.'];
}

function flash(light: Setup['light']): string[] {
  return light === 'continuous'
    ? []
    : ['No flash into anyone’s eyes; flashes and flicker can harm people with photosensitive epilepsy.'];
}
