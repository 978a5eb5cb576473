/** What says how many frames can be corrected at once. */
export interface BatchRoom {
  readonly frames: number;
  /** Pixels of the largest frame, as far as they are known. */
  readonly largestPixels: number | null;
  /** How many frames a worker holds at a time: with its blank beside it, two. */
  readonly heldEach: 1 | 2;
  /** `navigator.hardwareConcurrency`. */
  readonly processors: number;
  /** `navigator.deviceMemory`, 8 at most; `null` where the browser does not tell. */
  readonly memoryGb: number | null;
}

const MOST = 4;
/** Codes as decoded, a corrected picture of 16 bits, and as much again for what stands in between: as measured. */
const BYTES_A_PIXEL = 16;
/** What a page may take of a machine's memory beside all else that runs there; the project's own choice. */
const SHARE_OF_MEMORY = 1 / 4;
const USUAL = { pixels: 24e6, memoryGb: 4 };

/** How many workers correct a batch: as many as processors, as memory holds frames, and as there are frames. */
export function batchWorkers({ frames, largestPixels, heldEach, processors, memoryGb }: BatchRoom): number {
  const bytesEach = (largestPixels ?? USUAL.pixels) * BYTES_A_PIXEL * heldEach;
  const room = ((memoryGb ?? USUAL.memoryGb) * 2 ** 30 * SHARE_OF_MEMORY) / bytesEach;
  return Math.max(1, Math.min(frames, MOST, processors, Math.floor(room)));
}
