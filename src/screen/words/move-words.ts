import { kelvinAside as kelvinOf, TOLD_AT_KELVIN } from '../../engine/kelvin-aside.ts';
import type { Move } from '../../engine/moves/move.ts';
import type { Setup } from '../../engine/setup.ts';
import { belowClippingWords } from './exposure-words.ts';
import { percent, stops } from './figures.ts';
import { gelWords } from './gel-words.ts';
import type { LengthUnit } from './length-words.ts';
import { distanceWords, lightWords, slideWords, turnWords } from './light-move-words.ts';
import { directionWords } from './place-words.ts';
import { colourShift } from './warmth.ts';

/** A move as one says it across the set: what to do, and what it brings. */
export interface MoveSentence {
  readonly text: string;
  readonly brings: string | null;
  readonly caution: string | null;
}

/** Less than this reads "0.0 stop", and is nothing to be told. */
const LEAST_BROUGHT_EV = 0.05;

/** `moves` is the list that the move stands in. */
export function moveWords(
  move: Move,
  setup: Setup,
  unit: LengthUnit,
  moves: readonly Move[] = [move],
): MoveSentence {
  const text =
    move.kind === 'expose'
      ? `${exposeWords(move.stops)}, ${belowClippingWords(1)}.`
      : whatToDo(move, setup, unit);
  return {
    text: isAlternative(move, moves) ? `Or, if nothing can be moved, ${uncapital(text)}` : text,
    brings: bringsWords(move, moves),
    caution: move.caution,
  };
}

/**
 * What a move brings by itself. One that widens the spread is advised for what it does beside the others; the first
 * of a list says so.
 */
function bringsWords(move: Move, moves: readonly Move[]): string | null {
  const { bringsEv } = move;
  if (bringsEv === null || Math.abs(bringsEv) < LEAST_BROUGHT_EV) return null;
  if (bringsEv > 0) return `takes off ${stops(bringsEv)}`;
  if (moves.filter(isCure).length < 2) return `adds ${stops(-bringsEv)}`;
  const first = moves.find((each) => (each.bringsEv ?? 0) <= -LEAST_BROUGHT_EV);
  const together = first === move ? ': make it together with the others' : '';
  return `adds ${stops(-bringsEv)} by itself${together}`;
}

/** Moves after which the light itself is more even; exposure and white balance leave it as it is. */
const CURES: readonly Move['kind'][] = [
  'slide-lamp',
  'lamp-distance',
  'turn-lamp',
  'balance-lamps',
  'add-diffusion',
  'block-stray',
];

/** Whether a move makes the light itself more even. */
export function isCure({ kind }: Move): boolean {
  return CURES.includes(kind);
}

/** Whether a move stands in its list for whoever cannot make the others: the even part framed, instead of a cure. */
export function isAlternative(move: Move, moves: readonly Move[]): boolean {
  return move.kind === 'frame-tighter' && moves.some(isCure);
}

/** What to do, in one sentence. */
export function whatToDo(move: Move, setup: Setup, unit: LengthUnit): string {
  switch (move.kind) {
    case 'slide-lamp':
      return slideWords(move, setup, unit);
    case 'turn-lamp':
      return turnWords(move, setup, unit);
    case 'lamp-distance':
      return distanceWords(move, setup, unit);
    case 'balance-lamps': {
      const change = move.stops > 0 ? 'up' : 'down';
      return `Turn ${lightWords(move.lamp, setup)} ${change} by ${stops(Math.abs(move.stops))}.`;
    }
    case 'gel':
      return gelWords(move, setup);
    case 'lamp-colour':
      return `Set ${lightWords(move.lamp, setup)} ${colourShift(move)}.`;
    case 'white-balance':
      return `Set the camera’s white balance so that the picture turns ${colourShift(move, kelvinSetting(move.miredShift))}.`;
    case 'add-diffusion':
      return setup.arrangement === 'behind-sheet'
        ? 'Hang a second layer of diffusion a hand’s breadth behind the first, on the light’s side; it costs about a stop (common practice, no published source).'
        : 'Hang a layer of diffusion well clear of the head; it costs about a stop (common practice, no published source).';
    case 'block-stray':
      return move.fromDeg === null
        ? 'Block the spill: flag it, or switch off the room’s light.'
        : `Block the spill that comes from ${fromSide(move.fromDeg)}: flag it, or switch it off.`;
    case 'frame-tighter': {
      const { left, top, right, bottom } = move;
      const sides = [
        ['left', left],
        ['right', 1 - right],
        ['top', top],
        ['bottom', 1 - bottom],
      ] as const;
      const cut = sides.filter(([, share]) => share >= 0.005);
      const words = cut.map(
        ([side, share], i) => `${percent(share)} ${i === 0 ? 'of the frame ' : ''}at the ${side}`,
      );
      return `Frame tighter: leave out ${listed(words)}.`;
    }
    case 'expose':
      return `${exposeWords(move.stops)}.`;
  }
}

function exposeWords(by: number): string {
  return `Expose ${stops(Math.abs(by))} ${by < 0 ? 'less' : 'more'}`;
}

/**
 * Where the camera's kelvin setting goes for a picture so much warmer: the other way, since it names the light that
 * the camera is to take out. Its figure is that of the cast beside it, which is the shift turned round.
 */
function kelvinSetting(miredShift: number): string {
  const way = miredShift > 0 ? 'higher' : 'lower';
  const kelvin = kelvinOf(-miredShift);
  if (kelvin === null) return `its kelvin setting ${way}, as far as it goes`;
  const target = TOLD_AT_KELVIN + Math.sign(miredShift) * kelvin;
  return `its kelvin setting ${way}, to about ${target}\u00a0K where it stood at ${TOLD_AT_KELVIN}\u00a0K`;
}

function uncapital(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** "a", "a and b", "a, b and c". */
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function fromSide(angleDeg: number): string {
  const way = directionWords(angleDeg);
  if (way === 'up') return 'above';
  if (way === 'down') return 'below';
  return `the ${way.replace('up ', 'top ').replace('down ', 'bottom ')}`;
}
