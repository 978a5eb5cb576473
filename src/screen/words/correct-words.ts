import type { Treatment } from '../../engine/correct/correct-light.ts';
import type { CarriedNotes } from '../../engine/correct-frame.ts';
import type { WrittenFormat } from '../../engine/export/write-picture.ts';
import type { SurfaceName } from '../../engine/fits/surface.ts';
import type { CorrectionWishes } from '../correction-wishes.ts';
import { DOWNLOADS, thousands } from './correct-frame-words.ts';
import { decimals, percent, stops } from './figures.ts';
import type { LengthUnit } from './length-words.ts';
import { lengthWords } from './length-words.ts';

export const TREATMENT_WORDS: Record<Treatment, string> = {
  everything: 'the whole frame',
  'background-only': 'the background only',
  'ramp-only': 'the whole frame, as one straight ramp',
};

export const LEVEL_WORDS: Record<CorrectionWishes['level'], string> = {
  mean: 'its mean level',
  brightest: 'its brightest level',
  darkest: 'its darkest level',
  'below-white': 'a level of my own',
};

export const CAST_WORDS: Record<'out' | 'left', string> = {
  out: 'take its cast out too',
  left: 'leave its cast',
};

export const FORMAT_WORDS: Record<WrittenFormat, string> = {
  tiff: '16-bit TIFF',
  png: '16-bit PNG',
  jpeg: 'JPEG',
};

export const NOTES_WORDS: Record<CarriedNotes, string> = {
  all: 'all that the frame’s file notes',
  impersonal: 'no owner, place or serial number',
};

/** What of a frame's notes its corrected file says. */
export function notesHint(notes: CarriedNotes): string {
  return notes === 'all'
    ? 'Colour space, orientation, Exif and XMP stay the source’s own, with its owner, place and serial numbers where they are noted; the source itself is only read.'
    : 'Colour space, orientation, exposure, time, camera and lens stay as noted; owner, copyright, captions, place, serial numbers and the maker’s own note are left out, and of the colour profile all but its colours, name and copyright. The source itself is only read.';
}

export const INTO_WORDS: Record<CorrectionWishes['into'], string> = {
  downloads: DOWNLOADS,
  folder: 'a folder that I choose',
};

const SURFACE_WORDS: Record<SurfaceName, string> = {
  plane: 'a straight slope',
  quadratic: 'a simple dome',
  radial: 'rings round one centre',
  set: 'the lights that were found',
  spline: 'a smooth, freely bending surface',
};

/** How far a level below white may be asked for, in stops. */
const MOST_BELOW_WHITE = 6;

/** Stops below white as typed, "0.3" or "1,5 stops"; `null` for what is none. */
export function parseBelowWhite(text: string): number | null {
  const figure = /^\s*(\d+(?:[.,]\d+)?)\s*(?:stops?|ev)?\s*$/i.exec(text)?.[1];
  if (figure === undefined) return null;
  const ev = Number(figure.replace(',', '.'));
  return ev <= MOST_BELOW_WHITE ? Math.round(ev * 10) / 10 : null;
}

export function belowWhiteSlipWords(text: string, kept: number): string {
  return `“${text}” is no level between 0 and ${MOST_BELOW_WHITE} stops below white; it stays ${stops(kept)}.`;
}

/** What each treatment is sound for. */
export function treatmentHint(treat: Treatment): string {
  if (treat === 'everything')
    return 'Right for whatever is lit by this background alone and lets its light pass straight through: the background itself, flat and clear things. Light on the front of a subject is changed with it.';
  if (treat === 'background-only')
    return 'The subject is found by the blank frame and stays as it was shot; shadows and reflections on the background count as background.';
  return 'Only the slope that the four figures of the straight ramp tell: what an editor’s own ramp could do.';
}

/** Why the surface was chosen, without naming its mathematics. */
export function surfaceSentence(
  name: SurfaceName,
  heldOutEv: number,
  others: readonly { readonly name: SurfaceName; readonly heldOutEv: number }[],
): string {
  const own = `The light is followed by ${SURFACE_WORDS[name]}: it foretells parts of the frame that it had not seen to within ${stops(heldOutEv, 3)}`;
  const next = others.filter((other) => other.name !== name).sort((a, b) => a.heldOutEv - b.heldOutEv)[0];
  if (next === undefined) return `${own}; the frame has too few cells for anything richer.`;
  const its = `${SURFACE_WORDS[next.name]} to within ${stops(next.heldOutEv, 3)}`;
  return next.heldOutEv < heldOutEv
    ? `${own}; ${its}, which is no sure gain, and the simpler one is less likely to follow noise.`
    : `${own}, ${its}. It follows the light, not dust, weave or noise.`;
}

/** What is left over, in cells. */
export function leftOverWords(middleEv: number, mostEv: number): string {
  return `Left over after it: under ${stops(atLeast(middleEv), 2)} in 95 of 100 cells, ${stops(atLeast(mostEv), 2)} at most.`;
}

const atLeast = (ev: number) => Math.max(ev, 0.01);

/** What gains of the wrong place do to whatever bends the light. */
export function displacementSentence(
  frameWidths: number,
  ev: number,
  frameWidthMm: number | null,
  unit: LengthUnit,
): string {
  const share = `${percent(frameWidths)} of the frame’s width`;
  const distance =
    frameWidthMm === null ? share : `${lengthWords(frameWidths * frameWidthMm, unit)} (${share})`;
  return `The light must pass straight through the subject. What bends it, and shows the background from ${distance} beside, comes out wrong by up to ${ev < 0.01 ? `under ${stops(0.01, 2)}` : stops(ev, 2)}.`;
}

export interface FiguresOfBackground {
  readonly spreadEv: number;
  readonly deltaUv: number;
  readonly belowWhiteEv: number;
}

export function backgroundWords(figures: FiguresOfBackground | null): string {
  if (figures === null) return 'No part of it is background for sure: no figures.';
  const { spreadEv, deltaUv, belowWhiteEv } = figures;
  const level =
    belowWhiteEv >= 0 ? `${stops(belowWhiteEv)} below white` : `${stops(-belowWhiteEv)} above white`;
  return `Background within ${stops(spreadEv, spreadEv < 0.1 ? 3 : 2)}, tint ${decimals(deltaUv, 4)}\u00a0Δu′v′; ${level}`;
}

/** What each picture holds clipped: what the file already had, and what the gains take beyond white. */
export function clippedWords(before: number, byGains: number, ofAll: number): string | null {
  if (before === 0 && byGains === 0) return null;
  const had =
    before === 0
      ? ''
      : `${pixels(before, ofAll)} clipped in the file have no light of their own, and the gains tint or darken them with the rest`;
  const gained = byGains === 0 ? '' : `about ${pixels(byGains, ofAll)} would pass white`;
  return `${[had, gained].filter((part) => part !== '').join('; ')} (hatched from the upper left).`;
}

function pixels(count: number, ofAll: number): string {
  return `${thousands(count)} ${count === 1 ? 'pixel' : 'pixels'}, ${percent(count / ofAll, 1)},`;
}

export const BRUSH_WORDS = { background: 'adds to the background', subject: 'gives to the subject' } as const;

export const RADIUS_WORDS = {
  '0.01': 'a fiftieth of the frame’s width',
  '0.025': 'a twentieth of the frame’s width',
  '0.05': 'a tenth of the frame’s width',
} as const;

/** How the picture of what is left over is to be read. */
export function leftOverKey(reachEv: number): string {
  return `Lighter cells were measured above the surface, darker ones below; white and black stand at ${stops(reachEv, 2)}.`;
}
