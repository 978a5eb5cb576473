import type { BatchOutcome, BatchProgress } from '../../../workers/correct-batch.ts';
import { stops } from './figures.ts';
import { type LengthUnit, MM_PER } from './length-words.ts';

const PHASE_WORDS: Record<BatchProgress['phase'], string> = {
  opening: 'opening',
  decoding: 'decoding',
  converting: 'reading its colours',
  correcting: 'correcting',
  writing: 'coding',
  saving: 'writing',
  over: 'done',
};

export function phaseWords(phase: BatchProgress['phase']): string {
  return PHASE_WORDS[phase];
}

/** "Correct all 12 frames", "Correct this frame". */
export function correctAllWords(frames: number): string {
  if (frames === 0) return 'Correct all frames';
  return frames === 1 ? 'Correct this frame' : `Correct all ${frames} frames`;
}

/** What became of one frame. */
export function outcomeWords(outcome: BatchOutcome): string {
  if (outcome.state === 'cancelled') return 'Cancelled; nothing of it was written.';
  if (outcome.state === 'refused') return outcome.message;
  const { writtenAs, clippedPixels, background } = outcome;
  const even =
    background === null
      ? ''
      : `; background from ${stops(background.before.spreadEv, 2)} to ${stops(background.after.spreadEv, 3)}`;
  const clipped =
    clippedPixels === 0 ? '' : `; ${thousands(clippedPixels)} ${plural(clippedPixels, 'pixel')} beyond white`;
  return `Written as ${writtenAs}${even}${clipped}.`;
}

/** From so many inches on, a distance is told in feet. */
const IN_FEET_FROM_INCHES = 120;

/** What sets a frame apart from the blank, its distances in the unit of the page: the engine tells cm and m. */
export function flagWords(flag: string, unit: LengthUnit): string {
  if (unit === 'cm') return flag;
  return flag.replace(/\b(\d+(?:\.\d+)?) (c?m)\b/g, (_, figure, metric) => {
    const inches = (Number(figure) * (metric === 'cm' ? 10 : 1000)) / MM_PER.in;
    return inches < IN_FEET_FROM_INCHES ? `${Math.round(inches)} in` : `${Math.round(inches / 12)} ft`;
  });
}

/** Where a browser puts what nobody named a folder for: it may ask first, or hold some back. */
export const DOWNLOADS = 'the browser’s downloads';

/** What became of all: done, clipped, refused, cancelled. `refusedBefore` were not tried, as they can't be read. */
export function summaryWords(outcomes: readonly BatchOutcome[], refusedBefore: number, into: string): string {
  const of = (state: BatchOutcome['state']) => outcomes.filter((outcome) => outcome.state === state).length;
  const all = outcomes.length + refusedBefore;
  const refused = of('refused') + refusedBefore;
  const clipped = outcomes.filter((outcome) => outcome.state === 'done' && outcome.clippedPixels > 0).length;
  const doubtful = outcomes.filter((outcome) => outcome.state === 'done' && outcome.flags.length > 0).length;
  const parts = [
    `${of('done')} of ${all} ${plural(all, 'frame')} corrected and ${into === DOWNLOADS ? 'handed' : 'written'} to ${into}`,
    doubtful === 0
      ? ''
      : `${doubtful} to be looked at, for what stands beside ${doubtful === 1 ? 'it' : 'each'}`,
    clipped === 0 ? 'none clipped by it' : `${clipped} with pixels taken beyond white`,
    refused === 0
      ? 'none refused'
      : `${refused} refused, for the reason beside ${refused === 1 ? 'it' : 'each'}`,
    of('cancelled') === 0 ? '' : `${of('cancelled')} cancelled`,
  ];
  return `${parts.filter((part) => part !== '').join('; ')}.`;
}

/** What of a folder was left out. */
export function othersWords(others: number): string | null {
  if (others === 0) return null;
  if (others === 1)
    return '1 other file in it is no picture that is read here, or an earlier result, and was left out.';
  return `${others} other files in it are no pictures that are read here, or earlier results, and were left out.`;
}

const plural = (count: number, noun: string) => (count === 1 ? noun : `${noun}s`);

/** Thin spaces between thousands, as no comma or point says the same everywhere. */
export function thousands(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}
