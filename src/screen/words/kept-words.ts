import type { KeepingTrouble } from '../../takes/shoot-keeper.ts';
import type { ShelvedShoot } from '../../takes/take-shelf.ts';
import type { KeptShoots } from '../kept-shoots.ts';

const DAY = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });
const TIME = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** "7 takes of 26 November 2026, 10:12 to 10:40". */
export function shootWords({ takes, beganAt, lastAt }: ShelvedShoot): string {
  const [from, to] = [TIME.format(beganAt), TIME.format(lastAt)];
  const until = DAY.format(beganAt) === DAY.format(lastAt) ? to : `${DAY.format(lastAt)}, ${to}`;
  const when = from === until ? from : `${from} to ${until}`;
  return `${takes} ${takes === 1 ? 'take' : 'takes'} of ${DAY.format(beganAt)}, ${when}`;
}

export const KEEPING_TROUBLE_WORDS: Record<KeepingTrouble, string> = {
  full: 'There is no room left in this browser: takes from here on are held in this page alone, each by about 1 MB of its memory, and are gone when it is closed. Nothing that was kept is lost. Delete earlier shoots to make room, and save what you need.',
  newer:
    'What is kept in this browser was written by a newer version of this tool, and is left as it is. Takes are held in this page alone and are gone when it is closed: load the newer version, or save what you need.',
  none: 'This browser keeps nothing for this page: takes are held in the page alone, each by about 1 MB of its memory, and are gone when it is closed. Save what you need.',
  'no-shelf':
    'Nothing is kept here: takes are held in this part of the page alone, each by about 1 MB of its memory, and are gone when it is closed. Save what you need.',
};

/** How much room is left, where that is little. */
export function roomWords(takes: number): string {
  if (takes === 0)
    return 'No further take fits into what this browser keeps. Delete earlier shoots to make room.';
  const fit = takes === 1 ? 'one more take' : `about ${takes} more takes`;
  return `There is room in this browser for ${fit}. Deleting earlier shoots makes room.`;
}

export const REFUSED_WORDS: Record<NonNullable<KeptShoots['refused']>, string> = {
  'in-use': 'These takes are open in another page of this browser.',
  gone: 'These takes are no longer there: they were deleted in another page of this browser.',
  'not-opened':
    'These takes could not be opened; what is kept of them was left as it is. Reload the page and try again.',
  'other-schema': 'These takes were kept by another version of this tool, which alone can open them.',
};

/** What the browser does not promise of what it keeps; empty where it promises all. */
export function unsureKeepingWords(isForGood: boolean, tellsPagesApart: boolean): string {
  return [
    ...(isForGood
      ? []
      : ['The browser may clear these away when it runs short of room; a saved job stays yours.']),
    ...(tellsPagesApart
      ? []
      : ['It can’t tell whether another page has them open: go on with them in one page alone.']),
  ].join(' ');
}
