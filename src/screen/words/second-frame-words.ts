import type { SecondFrameRole } from '../../engine/lamps/second-frame.ts';
import type { FrameFacts } from '../../engine/reading.ts';
import type { Setup } from '../../engine/setup.ts';
import { type LengthUnit, lengthWords } from './length-words.ts';
import { parseLength } from './parse-length.ts';
import { trimmed } from './tolerance-words.ts';

export type SecondFrameKind = SecondFrameRole['kind'];
export type SlideSide = 'right' | 'left' | 'up' | 'down';

/** What is changed between the blank frame and the second one. */
export const KIND_WORDS: Record<SecondFrameKind, string> = {
  'lamp-off': 'the lights off',
  shifted: 'the camera slid',
  'stopped-down': 'the lens stopped down',
};

/** Where the camera was slid to, as seen from behind it. */
export const SIDE_WORDS: Record<SlideSide, string> = {
  right: 'to the right',
  left: 'to the left',
  up: 'up',
  down: 'down',
};

const SIDES: Record<SlideSide, readonly [right: number, down: number]> = {
  right: [1, 0],
  left: [-1, 0],
  up: [0, -1],
  down: [0, 1],
};

/** The camera slid to one side, by so many widths of the frame. */
export function slidTo(side: SlideSide, frameWidths: number): SecondFrameRole {
  const [right, down] = SIDES[side];
  return { kind: 'shifted', rightFrameWidths: right * frameWidths, downFrameWidths: down * frameWidths };
}

/** How the sentence begins that asks for a second frame; what it is shot with follows. */
export function offerWords(isInDoubt: boolean, hasOne: boolean): string {
  if (isInDoubt) return `Settle it with a ${hasOne ? 'further' : 'second'} frame, shot with`;
  if (hasOne) return 'A further frame can be added, shot with';
  return 'A second frame tells light, lens and room apart: one shot with';
}

/** What each kind tells, and how it is shot. Common practice, no published source. */
export function hintWords(kind: SecondFrameKind, light: Setup['light']): string {
  switch (kind) {
    case 'lamp-off':
      return 'Tells what the room itself adds. Same exposure, lights off, room as it was; where the file says shutter, aperture and ISO, a longer exposure will do.';
    case 'shifted':
      return 'Tells what goes along with the camera, as a lens’s falloff does, from the light, which stays. Slide the camera along the background, don’t turn it; same focus and aperture, lights untouched.';
    case 'stopped-down': {
      const other = {
        flash: 'ISO', // the shutter does not change a flash
        continuous: 'a slower shutter',
      };
      const makeGood = light === null ? 'a slower shutter, or ISO with flash' : other[light];
      return `Tells what the lens’s barrel cuts off. Same light, focus and zoom; make up for it with ${makeGood}.`;
    }
  }
}

const LEAST_SLIDE = 0.01;
const MOST_SLIDE = 1;
const LEAST_STOPS = 0.3;
const MOST_STOPS = 10;

/** "33 % of the frame’s width", or "13.9 cm" where that width is known. */
export function slideWords(frameWidths: number, frameWidthMm: number | null, unit: LengthUnit): string {
  if (frameWidthMm !== null) return lengthWords(frameWidths * frameWidthMm, unit);
  return `${slideFigure(frameWidths, null, unit)} of the frame’s width`;
}

/** As {@link slideWords}, as one types it. */
export function slideFigure(frameWidths: number, frameWidthMm: number | null, unit: LengthUnit): string {
  if (frameWidthMm !== null) return lengthWords(frameWidths * frameWidthMm, unit);
  return `${trimmed(frameWidths * 100, 1)}\u00a0%`;
}

/**
 * What was typed for a slide, in widths of the frame; `null` for what is none. A bare figure is a length where the
 * frame's width is known, else a percentage, and so is one with its sign.
 */
export function parseSlide(text: string, frameWidthMm: number | null, unit: LengthUnit): number | null {
  const typed = text.trim();
  const isPercent = typed.endsWith('%') || (frameWidthMm === null && /[\d.,]$/.test(typed));
  if (isPercent) return slideWithin(figureIn(typed.replace(/\s*%$/, '')) / 100);
  if (frameWidthMm === null) return null;
  return slideWithin((parseLength(typed, unit) ?? Number.NaN) / frameWidthMm);
}

/** What is said of a slide that was not understood: what was typed, what could be, and what stays. */
export function slideSlipWords(
  typed: string,
  frameWidths: number,
  frameWidthMm: number | null,
  unit: LengthUnit,
): string {
  const [least, most] = [LEAST_SLIDE, MOST_SLIDE].map((each) => trimmed(each * 100, 0));
  const lengths = frameWidthMm === null ? ' Lengths need the width that the frame shows.' : '';
  return `“${typed}” is no slide from ${least} to ${most}\u00a0% of the frame’s width: ${slideFigure(frameWidths, frameWidthMm, unit)} stays.${lengths}`;
}

/** What was typed for the stops that the lens was closed by; `null` for what is none. */
export function parseStops(text: string): number | null {
  const stops = figureIn(text.replace(/\s*(stops?|ev)\s*$/i, ''));
  return stops >= LEAST_STOPS && stops <= MOST_STOPS ? stops : null;
}

export function stopsSlipWords(typed: string, stops: number): string {
  return `“${typed}” is no number of stops from ${LEAST_STOPS} to ${MOST_STOPS}: ${stopsWords(stops)} stays.`;
}

/** "2 stops", "0.7 stop". */
export function stopsWords(stops: number): string {
  return `${stopsFigure(stops)}\u00a0${stopsUnit(stops)}`;
}

export const stopsFigure = (stops: number) => trimmed(stops, 2);

export const stopsUnit = (stops: number) => (stops > 1 ? 'stops' : 'stop');

/** "room-dark.png, the lights off": a second frame in use. */
export function usedWords(
  role: SecondFrameRole,
  { name, averagedFrames }: Pick<FrameFacts, 'name' | 'averagedFrames'>,
  frameWidthMm: number | null,
  unit: LengthUnit,
): string {
  const more = averagedFrames > 1 ? ` and ${averagedFrames - 1} more` : '';
  return `${name}${more}, ${roleWords(role, frameWidthMm, unit)}`;
}

function roleWords(role: SecondFrameRole, frameWidthMm: number | null, unit: LengthUnit): string {
  if (role.kind === 'lamp-off') return KIND_WORDS[role.kind];
  if (role.kind === 'stopped-down') return `${KIND_WORDS[role.kind]} ${stopsWords(role.stops)}`;
  const { rightFrameWidths: right, downFrameWidths: down } = role;
  const ways = [
    right === 0 ? [] : [way(Math.abs(right), right > 0 ? 'right' : 'left', frameWidthMm, unit)],
    down === 0 ? [] : [way(Math.abs(down), down > 0 ? 'down' : 'up', frameWidthMm, unit)],
  ].flat();
  return `${KIND_WORDS.shifted} ${ways.join(' and ')}`;
}

function way(frameWidths: number, side: SlideSide, frameWidthMm: number | null, unit: LengthUnit): string {
  return `${slideWords(frameWidths, frameWidthMm, unit)} ${SIDE_WORDS[side]}`;
}

function slideWithin(frameWidths: number): number | null {
  return frameWidths >= LEAST_SLIDE && frameWidths <= MOST_SLIDE ? frameWidths : null;
}

/** A figure with a point or a comma; NaN for anything else. */
function figureIn(text: string): number {
  const typed = text.trim();
  return /^(\d+(?:[.,]\d*)?|[.,]\d+)$/.test(typed) ? Number(typed.replace(',', '.')) : Number.NaN;
}
