import type { Move } from '../engine/moves/move.ts';
import type { Setup } from '../engine/setup.ts';

/** What a field may hold; "or null": where it is not known. */
type Allowed = 'a number' | 'a number or null' | 'above 0 or null' | 'from 0 to 1' | 'a light';

const LENGTH = 'a number or null';
const COLOUR = { lamp: 'a light', miredShift: 'a number', duvShift: 'a number' } as const;

/** What a move needs for what it changes to be known. What it brings, and its caution, change nothing. */
const FIELDS: Readonly<Record<Move['kind'], Readonly<Record<string, Allowed>>>> = {
  'slide-lamp': {
    lamp: 'a light',
    ...{ rightMm: LENGTH, downMm: LENGTH, rightFrameWidths: LENGTH, downFrameWidths: LENGTH },
  },
  'lamp-distance': { lamp: 'a light', ratio: 'above 0 or null' },
  'turn-lamp': {
    lamp: 'a light',
    ...{ aimRightMm: LENGTH, aimDownMm: LENGTH, aimRightFrameWidths: LENGTH, aimDownFrameWidths: LENGTH },
  },
  'balance-lamps': { lamp: 'a light', stops: 'a number' },
  gel: COLOUR,
  'lamp-colour': COLOUR,
  'white-balance': { miredShift: 'a number', duvShift: 'a number' },
  'add-diffusion': {},
  'block-stray': { fromDeg: 'a number or null' },
  'frame-tighter': { left: 'from 0 to 1', top: 'from 0 to 1', right: 'from 0 to 1', bottom: 'from 0 to 1' },
  expose: { stops: 'a number' },
};

/**
 * @throws RangeError, which names the move and its field, where moves that are said to be made could not have been:
 * an unknown kind, a light that is not there, a figure that is none.
 */
export function checkMoves(moves: readonly Move[], arrangement: Setup['arrangement']): void {
  if (!Array.isArray(moves)) throw new RangeError(`moves made come as a list, not as ${shown(moves)}`);
  const lights = arrangement === 'two-lamps' ? 2 : 1;
  // by number: a list with holes in it has moves that are none
  for (let i = 0; i < moves.length; i++) {
    const move = moves[i] as Move;
    const kind: unknown = move?.kind;
    if (typeof kind !== 'string' || !Object.hasOwn(FIELDS, kind))
      throw new RangeError(`move ${i + 1} has no kind that is known, but ${shown(kind)}`);
    const at = `move ${i + 1} ("${kind}")`;
    const held = move as unknown as Readonly<Record<string, unknown>>;
    for (const [field, allowed] of Object.entries(FIELDS[kind as Move['kind']])) {
      const value = held[field];
      if (isAllowed(value, allowed, lights)) continue;
      throw new RangeError(`${at}: "${field}" has to be ${needed(allowed, lights)}, not ${shown(value)}`);
    }
    if (move.kind === 'frame-tighter' && !(move.left < move.right && move.top < move.bottom))
      throw new RangeError(`${at}: "left" has to be less than "right", and "top" than "bottom"`);
  }
}

function isAllowed(value: unknown, allowed: Allowed, lights: number): boolean {
  if (value === null) return allowed.endsWith('or null');
  if (typeof value !== 'number' || !Number.isFinite(value)) return false;
  if (allowed === 'a light') return Number.isInteger(value) && value >= 0 && value < lights;
  if (allowed === 'above 0 or null') return value > 0;
  return allowed !== 'from 0 to 1' || (value >= 0 && value <= 1);
}

function needed(allowed: Allowed, lights: number): string {
  if (allowed !== 'a light')
    return allowed.replace('a number', 'a finite number').replace('above 0', 'a finite number above 0');
  return lights === 1 ? '0, the only light' : '0 (the left light) or 1 (the right one)';
}

function shown(value: unknown): string {
  return typeof value === 'string' ? `"${value}"` : String(value);
}
