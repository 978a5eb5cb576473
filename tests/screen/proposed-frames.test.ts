import { expect, test } from 'vitest';
import { ProposedFrames } from '../../src/screen/proposed-frames.ts';

test('frames are handed over once', () => {
  const proposed = new ProposedFrames([new File([], 'a.jpg')]);
  expect(proposed.handOver()).toHaveLength(1);
  expect(proposed.handOver()).toHaveLength(0);
});
