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
  full: 'There is no room left in this browser: takes from here on are kept in this page alone. Nothing that was kept is lost. Delete earlier shoots to make room.',
  none: 'This browser keeps nothing for this page: takes are gone when it is closed. Save what you need.',
};

export const REFUSED_WORDS: Record<NonNullable<KeptShoots['refused']>, string> = {
  'in-use': 'These takes are open in another page of this browser.',
  'not-opened':
    'These takes could not be opened; what is kept of them was left as it is. Reload the page and try again.',
  'other-schema': 'These takes were kept by another version of this tool, which alone can open them.',
};
