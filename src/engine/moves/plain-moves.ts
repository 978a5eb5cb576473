import { blockStray } from './block-stray.ts';
import { calmBrightMiddle } from './calm-bright-middle.ts';
import { expose } from './expose.ts';
import { frameTighter } from './frame-tighter.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';
import { slideLamps } from './slide-lamps.ts';
import { whiteBalance } from './white-balance.ts';

/**
 * The moves that can be named without a model of the lamps, in the order of doing: exposure first, since it decides
 * what the next take can show; then a stray light out, which is no part of the set; then lamps and diffusion; white balance once the light stands; and, for whoever
 * cannot move anything, the part of the frame that is even enough as it is.
 */
export function plainMoves(input: MovesInput): Move[] {
  // A light that is even enough is left alone.
  const lamps = input.verdict.even === 'yes' ? [] : [...slideLamps(input), ...calmBrightMiddle(input)];
  return [
    expose(input),
    blockStray(input),
    ...lamps,
    whiteBalance(input, { isTintToBeCured: true }),
    frameTighter(input),
  ].filter((move) => move !== null);
}
