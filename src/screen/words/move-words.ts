import type { Move } from '../../engine/moves/move.ts';
import type { Reading, Verdict } from '../../engine/reading.ts';
import type { Setup } from '../../engine/setup.ts';
import { decimals, percent, plusMinusStops, stops } from './figures.ts';
import { type LengthUnit, lengthWords } from './length-words.ts';
import { directionWords } from './place-words.ts';
import { kelvinAside } from './warmth.ts';

/** A move as one says it across the set: what to do, and what it brings. */
export interface MoveSentence {
  readonly text: string;
  readonly brings: string | null;
  readonly caution: string | null;
}

export function moveWords(move: Move, setup: Setup, unit: LengthUnit): MoveSentence {
  const brings =
    move.bringsEv === null
      ? null
      : `${move.bringsEv >= 0 ? 'takes off' : 'adds'} ${stops(Math.abs(move.bringsEv))}`;
  return { text: whatToDo(move, setup, unit), brings, caution: move.caution };
}

function whatToDo(move: Move, setup: Setup, unit: LengthUnit): string {
  switch (move.kind) {
    case 'slide-lamp': {
      const way = shift(move.rightMm, move.downMm, move.rightFrameWidths, move.downFrameWidths, unit);
      return `Slide ${head(move.lamp, setup)} ${way ?? toward(move.toward)}.`;
    }
    case 'turn-lamp': {
      const { aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths } = move;
      const way = shift(aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths, unit);
      return `Turn ${head(move.lamp, setup)} so that it aims ${way ?? `farther ${toward(move.toward)}`}.`;
    }
    case 'lamp-distance':
      return distanceWords(move.ratio, move.lamp, setup, unit);
    case 'balance-lamps': {
      const change = move.stops > 0 ? 'up' : 'down';
      return `Turn ${head(move.lamp, setup)} ${change} by ${stops(Math.abs(move.stops))}.`;
    }
    case 'gel':
      return `Put a gel of ${colourShift(move)} on ${head(move.lamp, setup)}; bring its power back to the same level.`;
    case 'lamp-colour':
      return `Set ${head(move.lamp, setup)} ${colourShift(move)}.`;
    case 'white-balance':
      return `Set the camera’s white balance so that the picture turns ${colourShift(move)}.`;
    case 'add-diffusion':
      return 'Add a second layer of diffusion, well clear of the head.';
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
      return `Expose ${stops(Math.abs(move.stops))} ${move.stops < 0 ? 'less' : 'more'}.`;
  }
}

function head(lamp: number, { arrangement }: Setup): string {
  if (arrangement === 'two-lamps') return lamp === 0 ? 'the left light' : 'the right light';
  return arrangement === 'panel' ? 'the panel' : 'the light';
}

function toward(angleDeg: number | null): string {
  return angleDeg === null ? 'a little' : `${directionWords(angleDeg)}, a little at a time`;
}

function shift(
  rightMm: number | null,
  downMm: number | null,
  rightWidths: number | null,
  downWidths: number | null,
  unit: LengthUnit,
): string | null {
  const parts = [
    oneWay('right', 'left', rightMm, rightWidths, unit),
    oneWay('down', 'up', downMm, downWidths, unit),
  ].filter((part) => part !== null);
  return parts.length > 0 ? parts.join(' and ') : null;
}

function oneWay(
  positive: string,
  negative: string,
  mm: number | null,
  widths: number | null,
  unit: LengthUnit,
): string | null {
  const value = mm ?? widths;
  if (value === null || value === 0) return null;
  const length =
    mm === null ? `${decimals(Math.abs(value), 2)} of the frame’s width` : lengthWords(Math.abs(mm), unit);
  return `${length} ${value > 0 ? positive : negative}`;
}

function distanceWords(ratio: number | null, lamp: number, setup: Setup, unit: LengthUnit): string {
  const which = head(lamp, setup);
  if (ratio === null) return `Move ${which} farther away.`;
  const way = ratio > 1 ? 'farther away' : 'closer';
  const present = setup.lampDistanceMm[lamp] ?? null;
  const target = present === null ? '' : `, to ${lengthWords(present * ratio, unit)}`;
  return `Move ${which} ${way}: ${decimals(ratio, 2)} times its present distance${target}.`;
}

function colourShift({ miredShift, duvShift }: { miredShift: number; duvShift: number }): string {
  const parts = [];
  if (Math.abs(miredShift) >= 0.5)
    parts.push(
      `${decimals(Math.abs(miredShift), 0)} mired ${miredShift > 0 ? 'warmer' : 'cooler'} (${kelvinAside(miredShift)})`,
    );
  if (Math.abs(duvShift) >= 0.00005)
    parts.push(`${decimals(Math.abs(duvShift), 4)} Duv ${duvShift > 0 ? 'greener' : 'more magenta'}`);
  return parts.length > 0 ? parts.join(' and ') : 'no further';
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

/** What to say where there is no move to make. */
export function nothingToMove({ even, neutral, exposed }: Verdict): string {
  if (even === 'yes' && neutral === 'yes' && exposed === 'yes')
    return 'Nothing: leave it as it is and shoot.';
  return 'No move is sure enough to be worth making.';
}

/** The caution of each move; one that was already given in the list is only recalled. */
export function cautionsInOrder(moves: readonly Move[]): (string | null)[] {
  const given = new Map<string, number>();
  return moves.map(({ caution }, i) => {
    if (caution === null) return null;
    const before = given.get(caution);
    if (before !== undefined) return `The caution of move ${before + 1} holds here too.`;
    given.set(caution, i);
    return caution;
  });
}

/** What all moves together are to bring; `null` where nothing can be foretold. */
export function predictionWords({ moves, predicted }: Reading): string | null {
  if (predicted === null || moves.length === 0) return null;
  const made = moves.length === 1 ? 'With this move made' : 'With all of these made';
  return `${made}, expect ${stops(predicted.spreadEv)} across the frame, ${plusMinusStops(predicted.plusMinusEv)}.`;
}
