import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { causes } from '../../../src/engine/diagnosis/causes.ts';
import { readFrame } from '../../../src/engine/read-frame.ts';
import type { Setup } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { nodePlatform } from '../../node-platform.ts';

const SAMPLES: readonly { file: string; setup: Setup }[] = JSON.parse(
  readFileSync('samples/samples.json', 'utf8'),
);

async function causesOf(file: string) {
  const { setup } = SAMPLES.find((sample) => sample.file === file)!;
  const source = { name: file, bytes: new Uint8Array(readFileSync(`samples/${file}`)) };
  const { reading, grid, surfaces, set } = await readFrame(
    [source],
    { setup, tolerance: DEFAULT_TOLERANCE },
    nodePlatform,
  );
  return causes({ measurement: reading, grid, surfaces, set, setup, tolerance: DEFAULT_TOLERANCE });
}

// Shares as worked out from the samples' own sets, without the engine (samples/README.md); the tolerance is the
// half-width that the model itself states, a little over.
test.each([
  ['sheet-off-centre.jpg', 'off-centre', 0.528, 0.16, /^The light stands about 1[01] cm to the left of/],
  ['clipped.jpg', 'hot-spot', 1.436, 0.32, /^The sheet lets part of the light straight through/],
  ['two-unequal-lights.jpg', 'unequal-lamps', 0.277, 0.17, /^The left light is 0\.\d stop stronger/],
  ['room-spill.png', 'stray-light', 0.091, 0.08, /spills in, most from the top: 1\d % of the light.*warmer/],
] as const)('names in %s: %s, with its share', async (file, kind, shareEv, within, says) => {
  const found = await causesOf(file);
  const cause = found.find((each) => each.kind === kind);
  console.log(`measured: ${file}: ${found.map((each) => `${each.kind} ${each.ev?.toFixed(2)}`).join(', ')}`);
  expect(cause).toBeDefined();
  expect(Math.abs(cause!.ev! - shareEv)).toBeLessThan(within);
  expect(cause!.confidence).toBeGreaterThan(0.5);
  expect(cause!.says).toMatch(says);
});

test('a sheet that tints one side is told from light of two colours', async () => {
  const found = await causesOf('sheet-yellowed-on-one-side.jpg');
  const kinds = found.map(({ kind }) => kind);
  expect(kinds).toContain('tinted-on-one-side');
  expect(kinds).not.toContain('stray-light');
  expect(found.find(({ kind }) => kind === 'tinted-on-one-side')!.says).toMatch(
    /^The sheet itself is warmer towards the left/,
  );
});

test('names nothing where the light is good, or no model was fitted', async () => {
  expect(await causesOf('nearly-perfect.png')).toEqual([]);
});
