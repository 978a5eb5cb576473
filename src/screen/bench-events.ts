import type { Reading } from '../engine/reading.ts';
import type { ReadFailure } from '../sources/read-failure.ts';
import type { BenchEvents, BenchProgress } from './bench-element.ts';

/** Tells what the bench's listeners are told as events on the element, out of any shadow. */
export function toldByEvents(element: HTMLElement) {
  const tell = <Name extends keyof BenchEvents>(name: Name, detail: BenchEvents[Name]['detail']) => {
    element.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  };
  return {
    reading: (reading: Reading) => tell('evenfield-reading', reading),
    progress: (progress: BenchProgress) => tell('evenfield-progress', progress),
    failure: ({ code, message, fileName }: ReadFailure) =>
      tell('evenfield-error', { code, message, fileName }),
  };
}
