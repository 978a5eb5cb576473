import { expect, test } from 'vitest';
import { type BatchRoom, batchWorkers } from '../../workers/batch-workers.ts';

const usual: BatchRoom = { frames: 40, largestPixels: 24e6, heldEach: 1, processors: 8, memoryGb: 8 };

test.each<[what: string, room: Partial<BatchRoom>, workers: number]>([
  ['a common machine', {}, 4],
  ['two processors', { processors: 2 }, 2],
  ['one processor', { processors: 1 }, 1],
  ['one frame', { frames: 1 }, 1],
  ['a browser that does not tell its memory', { memoryGb: null }, 2],
  ['frames not yet looked at', { largestPixels: null }, 4],
  ['60 megapixels', { largestPixels: 60e6 }, 2],
  ['60 megapixels beside their blank', { largestPixels: 60e6, heldEach: 2 }, 1],
  ['100 megapixels, more than a small machine should hold', { largestPixels: 100e6, memoryGb: 2 }, 1],
])('batchWorkers(room) of %s', (_, room, workers) => {
  expect(batchWorkers({ ...usual, ...room })).toBe(workers);
});
