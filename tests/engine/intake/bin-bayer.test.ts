import { expect, test } from 'vitest';
import { binBayer } from '../../../src/engine/intake/bin-bayer.ts';

test('binBayer(…) takes half an odd sum of greens to the even code where white leaves no room to double', () => {
  const greens = [
    { upper: 100, lower: 101, code: 100 },
    { upper: 101, lower: 102, code: 102 },
    { upper: 103, lower: 102, code: 102 },
    { upper: 103, lower: 104, code: 104 },
    { upper: 101, lower: 101, code: 101 }, // nothing is cut off an even sum: odd codes stay
    { upper: 100, lower: 104, code: 102 },
  ];
  const width = 2 * greens.length;
  const data = Uint16Array.from([
    ...greens.flatMap(({ upper }) => [90, upper]),
    ...greens.flatMap(({ lower }) => [lower, 80]),
  ]);
  const mosaic = { raw_width: width, raw_height: 2, left_margin: 0, top_margin: 0, width, height: 2, data };
  const levels = { black: [0, 0, 0, 0], beyond: null, white: [40_000, 40_000, 40_000] } as const;
  const { samples } = binBayer(mosaic, 'RGGB', levels);
  expect([...samples]).toEqual(greens.flatMap(({ code }) => [90, code, 80]));
});
