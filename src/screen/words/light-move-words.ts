import type { Move } from '../../engine/moves/move.ts';
import type { Setup } from '../../engine/setup.ts';
import { decimals, percent } from './figures.ts';
import { SURFACE_WORDS } from './found-set-words.ts';
import { handLengthWords, isHandLength, type LengthUnit } from './length-words.ts';
import { directionWords } from './place-words.ts';
import { lightNames } from './setup-words.ts';

/** How a light is spoken of in a move. */
export function lightWords(lamp: number, { arrangement }: Setup): string {
  return lightNames(arrangement)[lamp] ?? 'the light';
}

export function slideWords(move: Move & { kind: 'slide-lamp' }, setup: Setup, unit: LengthUnit): string {
  const { rightMm, downMm, rightFrameWidths, downFrameWidths } = move;
  const ways = [
    wayWords(['right', 'left'], rightMm, rightFrameWidths, unit),
    wayWords(['down', 'up'], downMm, downFrameWidths, unit),
  ];
  return `Slide ${lightWords(move.lamp, setup)} ${bothWays(ways, setup) ?? toward(move.toward, setup)}.`;
}

export function turnWords(move: Move & { kind: 'turn-lamp' }, setup: Setup, unit: LengthUnit): string {
  const { aimRightMm, aimDownMm, aimRightFrameWidths, aimDownFrameWidths } = move;
  const ways = [
    wayWords(['farther right', 'farther left'], aimRightMm, aimRightFrameWidths, unit),
    wayWords(['lower', 'higher'], aimDownMm, aimDownFrameWidths, unit),
  ];
  const aim = bothWays(ways, setup) ?? `farther ${toward(move.toward, setup)}`;
  // of one behind a sheet the sheet is spoken of anyway
  const on = setup.arrangement === 'behind-sheet' ? '' : ` on ${SURFACE_WORDS[setup.arrangement]}`;
  return `Turn ${lightWords(move.lamp, setup)} so that it aims ${aim}${move.toward === null ? on : ''}.`;
}

export function distanceWords(
  { ratio, lamp }: Move & { kind: 'lamp-distance' },
  setup: Setup,
  unit: LengthUnit,
): string {
  const light = lightWords(lamp, setup);
  const surface = SURFACE_WORDS[setup.arrangement];
  if (ratio === null) return `Move ${light} farther from ${surface}.`;
  const way = ratio > 1 ? `farther from ${surface}` : `closer to ${surface}`;
  const present = setup.lampDistanceMm[lamp] ?? null;
  // a light that strikes from the side does not keep its aim by going straight back
  const aim = setup.arrangement === 'behind-sheet' ? '' : '; then aim it at the same spot again';
  if (present === null || !isHandLength(present * (ratio - 1)))
    return `Move ${light} ${way}: ${decimals(ratio, 2)} times its present distance${aim}.`;
  const by = handLengthWords(present * Math.abs(ratio - 1), unit);
  return `Move ${light} ${by} ${way}, to ${handLengthWords(present * ratio, unit)}${aim}.`;
}

/** A way shorter than this is not measured by eye in the camera's picture: it is a nudge, and what it is of the frame aside. */
const NUDGE_WIDTHS = 0.03;
/** Said once in a sentence is enough. */
const OF_FRAME = ' of the frame’s width';

/** "10 cm right", "25 % of the frame’s width right"; `null` for a way of no length. */
function wayWords(
  [positive, negative]: readonly [string, string],
  mm: number | null,
  widths: number | null,
  unit: LengthUnit,
): string | null {
  const value = mm ?? widths;
  if (value === null || (mm === null ? Math.abs(value) < 0.005 : !isHandLength(mm))) return null;
  const length = mm === null ? shareOfWidth(Math.abs(value)) : handLengthWords(Math.abs(mm), unit);
  return `${length} ${value > 0 ? positive : negative}`;
}

function shareOfWidth(widths: number): string {
  const share = `${percent(widths)}${OF_FRAME}`;
  return widths < NUDGE_WIDTHS ? `a little (${share})` : share;
}

function bothWays([across = null, down = null]: readonly (string | null)[], setup: Setup): string | null {
  const further = across === null ? down : (down?.replace(OF_FRAME, '') ?? null);
  const parts = [across && `${across}${mirrored(across, setup)}`, further].filter((part) => part !== null);
  return parts.length > 0 ? parts.join(' and ') : null;
}

function toward(angleDeg: number | null, setup: Setup): string {
  if (angleDeg === null) return 'a little';
  const way = directionWords(angleDeg);
  return `${way}${mirrored(way, setup)}, a little at a time`;
}

/** Whoever moves a light behind a sheet stands there, and faces the camera. */
function mirrored(way: string, { arrangement }: Setup): string {
  const side = way.match(/right$|left$/)?.[0];
  if (arrangement !== 'behind-sheet' || side === undefined) return '';
  return ` (from behind the sheet: your ${side === 'right' ? 'left' : 'right'})`;
}
