import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { halfUnitIn, numberIn, readTable } from '../../published/read-table.ts';
import { EVEN_SET } from './even-set.ts';
import type { FlickerBands } from './flicker-bands.ts';
import { photographSet } from './photograph-set.ts';

const bands: FlickerBands = {
  periodLines: 250,
  ofLines: 800,
  modulation: 0.2,
  phaseDeg: 90,
  run: 'across',
};
const LINES = Array.from({ length: 800 }, (_, line) => (line + 0.5) / 800);

/** Amplitude and phase of the green light's wave of that period, in whole periods of the lines. */
function wave(light: readonly number[], periodLines: number) {
  const counted = Math.floor(light.length / periodLines) * periodLines;
  const mean = light.slice(0, counted).reduce((sum, each) => sum + each, 0) / counted;
  let [cosine, sine] = [0, 0];
  for (let line = 0; line < counted; line++) {
    const angle = (2 * Math.PI * (line + 0.5)) / periodLines;
    cosine += (2 * light[line]! * Math.cos(angle)) / counted / mean;
    sine += (2 * light[line]! * Math.sin(angle)) / counted / mean;
  }
  return { modulation: Math.hypot(cosine, sine), phaseDeg: (Math.atan2(sine, cosine) * 180) / Math.PI };
}

test('bands run level with the period, modulation and phase asked for', () => {
  const { field } = photographSet({ ...EVEN_SET, bands });
  const light = LINES.map((y) => field(0.3, y)[1]);
  const { modulation, phaseDeg } = wave(light, 250);
  expectWithin(modulation, 0.2, 1e-9);
  expectWithin(phaseDeg, 90, 1e-6);
  expectWithin(
    (Math.max(...light) - Math.min(...light)) / (Math.max(...light) + Math.min(...light)),
    0.2,
    1e-4,
  );
  for (const y of [0.1, 0.55, 0.9]) expect(field(0.05, y)).toEqual(field(0.95, y));
});

test.each(readTable('flicker-depth'))(
  '$modulation_percent % of flicker at $hertz Hz leaves $peak_to_peak_EV EV from crest to trough after 1/$one_over_seconds s',
  (row) => {
    const [hertz, seconds] = [numberIn(row, 'hertz'), 1 / numberIn(row, 'one_over_seconds')];
    const flicker = numberIn(row, 'modulation_percent') / 100;
    // a line is exposed for that long about a crest: the flicker's mean over it
    const steps = 10_000;
    const left =
      Array.from({ length: steps }, (_, i) =>
        Math.cos(2 * Math.PI * hertz * seconds * ((i + 0.5) / steps - 0.5)),
      ).reduce((sum, each) => sum + each, 0) / steps;
    const { field } = photographSet({ ...EVEN_SET, bands: { ...bands, modulation: flicker * left } });
    const light = LINES.map((y) => field(0.3, y)[1]);
    expectWithin(
      Math.log2(Math.max(...light) / Math.min(...light)),
      numberIn(row, 'peak_to_peak_EV'),
      halfUnitIn(row, 'peak_to_peak_EV'),
    );
  },
);

test('bands of a file turned by a quarter stand upright', () => {
  const { field } = photographSet({ ...EVEN_SET, bands: { ...bands, run: 'upright' } });
  const { modulation, phaseDeg } = wave(
    LINES.map((x) => field(x, 0.3)[1]),
    250,
  );
  expectWithin(modulation, 0.2, 1e-9);
  expectWithin(phaseDeg, 90, 1e-6);
  for (const x of [0.1, 0.55, 0.9]) expect(field(x, 0.05)).toEqual(field(x, 0.95));
});
