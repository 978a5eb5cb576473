import { expect, test } from 'vitest';
import { keptFor } from '../../../src/engine/response/kept-for.ts';
import { srgbResponse } from '../../../src/engine/response/srgb-response.ts';

const kept = [
  { ...srgbResponse(), camera: 'Model A' },
  { ...srgbResponse(), camera: null },
];

test('keptFor(format, camera, responses) is of that camera, for what cameras write by themselves alone', () => {
  expect(keptFor('jpeg', 'Model A', kept)).toBe(kept[0]);
  expect(keptFor('heic', 'Model A', kept)).toBe(kept[0]);
  for (const format of ['png', 'tiff', 'webp', 'avif', 'raw'] as const)
    expect(keptFor(format, 'Model A', kept)).toBeNull();
  expect(keptFor('jpeg', 'Model B', kept)).toBeNull();
  expect(keptFor('jpeg', null, kept)).toBeNull();
});
