import type { ReadPhase } from '../../engine/read-frame.ts';
import { type Take, takeNumber } from '../../takes/take.ts';

const PHASE_WORDS: Record<ReadPhase, string> = {
  opening: 'Opening',
  decoding: 'Decoding',
  converting: 'Reading the colours of',
  averaging: 'Averaging the light of',
  measuring: 'Measuring',
  fitting: 'Fitting the light of',
};

/** Where each phase begins on the whole way, 0 to 1, by how long they take on a large frame. */
const PHASE_BEGINS: readonly (readonly [ReadPhase, number])[] = [
  ['opening', 0],
  ['decoding', 0.05],
  ['converting', 0.3],
  ['averaging', 0.4],
  ['fitting', 0.6],
  ['measuring', 0.75],
];

export function progressWords(phase: ReadPhase, fileName: string): string {
  return `${PHASE_WORDS[phase]} ${fileName}`;
}

/** Any step of a frame that is read tells of itself far sooner, on slow machines too. */
export const LONG_WAIT_MS = 60_000;
export const LONG_WAIT_WORDS =
  'Nothing new was heard of this for a minute, which is unusually long. It may still come to an end, and can be cancelled.';

/** That a take is being fetched from the browser's database to be shown. */
export function fetchingWords(take: Take): string {
  return `Fetching take ${takeNumber(take)}…`;
}

/** How far the whole reading is, 0 to 1. */
export function wholeFraction(phase: ReadPhase, fraction: number): number {
  const i = PHASE_BEGINS.findIndex(([each]) => each === phase);
  const begins = PHASE_BEGINS[i]![1];
  const ends = PHASE_BEGINS[i + 1]?.[1] ?? 1;
  return begins + (ends - begins) * fraction;
}
