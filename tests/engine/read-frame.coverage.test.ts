import { describe, expect, test } from 'vitest';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { randomField } from '../synthetic/known-field.ts';
import { CODINGS, fileOf, readBytes } from './known-frames.ts';

/** Per coding; five codings make a thousand frames with EVENFIELD_FRAMES=200. */
const FRAMES = Number(process.env.EVENFIELD_FRAMES ?? 40);
const [WIDTH, HEIGHT] = [480, 320];

interface Judged {
  covered: number;
  errors: number[];
  halves: number[];
}

describe.each(CODINGS)('every ± of a reading, %s', (coding) => {
  test('covers the truth about 95 times in 100', async () => {
    const figures: Record<string, Judged> = {};
    const judge = (name: string, measured: number | null, truth: number, plusMinus: number | null) => {
      if (measured === null || plusMinus === null) return;
      figures[name] ??= { covered: 0, errors: [], halves: [] };
      const error = Math.abs(measured - truth);
      if (error <= plusMinus) figures[name].covered++;
      figures[name].errors.push(error);
      figures[name].halves.push(plusMinus);
    };
    for (let seed = 1; seed <= FRAMES; seed++) {
      const { field } = randomField(10_000 + seed);
      const { reading } = await readBytes(await fileOf(field, coding, WIDTH, HEIGHT, seed));
      const truth = fieldTruth(field, { ...reading.grid, widthPx: WIDTH, heightPx: HEIGHT });
      const { falloff, tint, gradient, cast } = reading;
      judge('spread', falloff.spreadEv, truth.spreadEv, falloff.plusMinusEv);
      judge('tint', tint.spreadDeltaUv, truth.spreadDeltaUv, tint.plusMinusDeltaUv);
      judge('gradient ev', gradient.ev, truth.gradient.ev, gradient.plusMinusEv);
      const turn =
        gradient.angleDeg === null ? null : ((gradient.angleDeg - truth.gradient.angleDeg + 540) % 360) - 180;
      judge('gradient deg', turn, 0, gradient.plusMinusDeg);
      judge('gradient mired', gradient.mired, truth.gradient.mired, gradient.plusMinusMired);
      judge('cast uv', cast.deltaUv, truth.cast.deltaUv, cast.plusMinusDeltaUv);
      judge('cast mired', cast.mired, truth.cast.mired, cast.plusMinusMired);
      judge('cast duv', cast.duv, truth.cast.duv, cast.plusMinusDuv);
    }
    for (const [name, { covered, errors, halves }] of Object.entries(figures)) {
      const rms = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
      const median = halves.sort((a, b) => a - b)[halves.length >> 1]!;
      console.log(
        `measured: ${coding.padEnd(17)} ${name.padEnd(15)} covers ${((100 * covered) / errors.length).toFixed(1)} % of ${errors.length}, median ± ${median.toExponential(2)}, rms error ${rms.toExponential(2)}, ratio ${(median / rms).toFixed(2)}`,
      );
    }
    expect(Object.keys(figures).length).toBe(8);
  });
});
