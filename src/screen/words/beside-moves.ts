import type { Move } from '../../engine/moves/move.ts';
import type { Reading } from '../../engine/reading.ts';
import type { Setup } from '../../engine/setup.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { plusMinusStops, stops } from './figures.ts';
import { CLEAR_THE_FRAME, hidesLight, isNotBlank } from './hidden-light.ts';
import { isAlternative, isCure } from './move-words.ts';
import type { SecondFrameKind } from './second-frame-words.ts';
import { lightNames } from './setup-words.ts';

/** What else the moves were found by. */
export interface MovesFoundBy {
  /** Whether the lights' moves were planned by a set that is believed, so that none means that none would help. */
  readonly isPlanned: boolean;
  /** Whether the frame does not go with the takes before it and the moves said to be made, so that it was read alone. */
  readonly isReadAlone?: boolean;
  /** The second frame that would settle what is in doubt, which then comes before all else. */
  readonly settling: SecondFrameKind | null;
}

const READ_ALONE =
  'This frame does not go with the takes before it and the moves answered as done, so it was read by itself. Answer the next moves as they are really made: by how far, where it is not as told.';

/** What to say beside the moves, or where there is none to make, in the order of saying. */
export function wordsBesideMoves(reading: Reading, setup: Setup, foundBy: MovesFoundBy): readonly string[] {
  const { moves, verdict } = reading;
  if (isNotBlank(reading)) return [CLEAR_THE_FRAME];
  const colour = unmendedColour(reading, setup);
  const others = [...(foundBy.isReadAlone ? [READ_ALONE] : []), ...(colour === null ? [] : [colour])];
  const leave = leaveWords(reading, setup, foundBy);
  if (leave !== null) return [leave, ...others];
  if (moves.length > 0) return others;
  const { even, neutral, exposed } = verdict;
  if (even === 'yes' && exposed === 'yes' && (neutral === 'yes' || colour !== null))
    return colour === null ? ['Nothing: leave it as it is and shoot.', ...others] : others;
  return ['No move is sure enough to be worth making.', ...others];
}

/**
 * That the light is as even as moves make it, and what takes the rest; `null` where it is even enough, moves are
 * advised that make it more even, or something else is to be done before that is known.
 */
function leaveWords(reading: Reading, setup: Setup, { isPlanned, settling }: MovesFoundBy): string | null {
  const { moves, verdict, falloff } = reading;
  if (verdict.even === 'yes' || !isPlanned || settling !== null || hidesLight(reading)) return null;
  if (moves.some((move) => isCure(move) || move.kind === 'expose')) return null;
  const isOne = lightNames(setup.arrangement).length === 1;
  const light = isOne ? 'the light where it is' : 'the lights where they are';
  const tighter = moves.some(({ kind }) => kind === 'frame-tighter') ? ', unless you frame tighter' : '';
  return `Leave ${light}: no move promises anything to speak of beyond its own\u00a0±. The profile takes out the ${stops(falloff.spreadEv)} that is left${tighter}.`;
}

/** What mends a tint where no light can be moved against it. */
const AGAINST_TINT: Record<Setup['arrangement'], string> = {
  'behind-sheet': 'turn or change the sheet',
  bounced: 'bounce off another part of the wall',
  'two-lamps': 'bring both lights to one colour',
  panel: 'turn or change the panel',
};

/**
 * Colour that is surely off and that none of the moves is against; `null` where there is none, or where what clips
 * may only look tinted. Without a move, a colour that has a temperature can only be off in parts: a cast that is the
 * same all over would be taken out in the camera.
 */
function unmendedColour(reading: Reading, { arrangement }: Setup): string | null {
  const { verdict, cast, moves } = reading;
  if (verdict.neutral !== 'no' || hidesLight(reading)) return null;
  if (moves.some(({ kind }) => AGAINST_COLOUR.includes(kind))) return null;
  const fault = cast.mired === null ? 'colour, which is far from white' : 'tint';
  return `No move mends the ${fault}: ${AGAINST_TINT[arrangement]}, or take it out with the profile.`;
}

const AGAINST_COLOUR: readonly Move['kind'][] = ['white-balance', 'block-stray', 'gel', 'lamp-colour'];

/** The caution of each move, sentence by sentence; what was already given in the list is only recalled. */
export function cautionsInOrder(moves: readonly Move[]): (string | null)[] {
  const given = new Map<string, number>();
  return moves.map(({ caution }, i) => {
    if (caution === null) return null;
    const sentences = caution.split(/(?<=\.) /);
    const before = sentences.flatMap((sentence) => given.get(sentence) ?? []);
    const fresh = sentences.filter((sentence) => !given.has(sentence));
    for (const sentence of fresh) given.set(sentence, i);
    if (before.length === 0) return caution;
    return [...fresh, `The caution of move ${Math.max(...before) + 1} holds here too.`].join(' ');
  });
}

/**
 * What all moves together are to bring, and what then is to be done where that is less than was asked; `null` where
 * nothing can be foretold.
 */
export function predictionWords({ moves, predicted }: Reading, { measure, limit }: Tolerance): string | null {
  if (predicted === null || moves.length === 0) return null;
  const { spreadEv, plusMinusEv } = predicted;
  const isOver = measure === 'range' && spreadEv > limit;
  const rest = isOver ? ' That is over what you asked for: the profile takes out the rest.' : '';
  return `With ${whichMoves(moves)} made, expect ${stops(spreadEv)} across the frame, ${plusMinusStops(plusMinusEv)}.${rest}`;
}

/** Those that are foretold of: all but one that stands in the list for whoever cannot make the others. */
function whichMoves(moves: readonly Move[]): string {
  const numbers = moves.flatMap((move, i) => (isAlternative(move, moves) ? [] : [i + 1]));
  if (numbers.length === moves.length) return numbers.length === 1 ? 'this move' : 'all of these';
  if (numbers.length === 1) return `move ${numbers[0]}`;
  return `moves ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}
