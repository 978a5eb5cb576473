import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { SHEET_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';
import { studioField } from './studio-field.ts';
import type { StudioSet } from './studio-set.ts';

const set: StudioSet = {
  ...SHEET_SET,
  cameraRightMm: 40,
  exposure: { peak: 0.7 },
  texture: {
    creases: [{ xMm: 0, yMm: 0, angleDeg: 20, widthMm: 3, depthEv: -0.1 }],
    weave: { pitchRightMm: 3, pitchDownMm: 3, rangeEv: 0.05 },
    dust: [{ xMm: 10, yMm: 20, radiusMm: 3, depthEv: 0.2 }],
  },
  rim: { side: 'right', reach: 0.06, level: 0.1, soft: 0.005 },
  bands: { periodLines: 300, ofLines: 1000, modulation: 0.1, phaseDeg: 40, run: 'across' },
};

test('studioField(set) is the set’s own field to 1e-5 EV, fine parts and all', () => {
  const slow = photographSet(set).field;
  const { field, truth } = studioField(set);
  let worst = 0;
  for (let i = 1; i <= 400; i++) {
    const [x, y] = [(i * 0.7548776662466927) % 1, (i * 0.5698402909980532) % 1];
    const [a, b] = [field(x, y), slow(x, y)];
    for (const channel of [0, 1, 2]) worst = Math.max(worst, Math.abs(Math.log2(a[channel]! / b[channel]!)));
  }
  console.log(`measured: quick field off by ${worst.toExponential(1)} EV at most`);
  expect(worst).toBeLessThan(2e-5);
  expectWithin(truth.exposureFactor, photographSet(set).truth.exposureFactor, 1e-12);
});
