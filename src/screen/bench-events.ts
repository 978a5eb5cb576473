import type { Reading } from '../engine/reading.ts';
import type { ReadFailure } from '../sources/read-failure.ts';
import type { BracketProgress } from './bench-bracket.ts';
import type { CorrectProgress } from './bench-correction.ts';
import type { Progress } from './bench-wishes.ts';

/** What the bench tells by event: see its own documentation. */
export interface BenchEvents {
  'evenfield-reading': CustomEvent<Reading>;
  'evenfield-progress': CustomEvent<Progress | CorrectProgress | BracketProgress>;
  'evenfield-error': CustomEvent<Pick<ReadFailure, 'code' | 'message' | 'fileName'>>;
}

/** Tells what the bench's listeners are told as events on the element, out of any shadow. */
export function toldByEvents(element: HTMLElement) {
  const tell = <Name extends keyof BenchEvents>(name: Name, detail: BenchEvents[Name]['detail']) => {
    element.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  };
  return {
    reading: (reading: Reading) => tell('evenfield-reading', reading),
    progress: (progress: Progress | CorrectProgress | BracketProgress) =>
      tell('evenfield-progress', progress),
    failure: ({ code, message, fileName }: ReadFailure) =>
      tell('evenfield-error', { code, message, fileName }),
  };
}

declare global {
  interface HTMLElementEventMap extends BenchEvents {}
}
