import { describe, expect, test } from 'vitest';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { randomField } from '../synthetic/known-field.ts';
import { CODINGS, type Coding, fileOf, readBytes } from './known-frames.ts';

const FRAMES = 24;
const [WIDTH, HEIGHT] = [1200, 800];

/** Root mean square over the cells, per frame at the most: stops, and u′v′ distance. */
const LIMITS: Record<Coding, { ev: number; uv: number }> = {
  '16 bit': { ev: 0.0015, uv: 0.00015 },
  '8 bit': { ev: 0.002, uv: 0.0002 },
  '8 bit noise-free': { ev: 0.002, uv: 0.0002 },
  'JPEG 4:4:4': { ev: 0.006, uv: 0.001 },
  'JPEG 4:2:0': { ev: 0.006, uv: 0.001 },
};

const rootMeanSquare = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

describe.each(CODINGS)('a known field up to 3 EV, 1200 px wide, %s', (coding) => {
  test('is read back within the stated limits', async () => {
    const worst = {
      ev: 0,
      evPointwise: 0,
      uv: 0,
      deg: 0,
      stops: 0,
      mired: 0,
      castUv: 0,
      castMired: 0,
      castDuv: 0,
    };
    const at: Record<string, string> = {};
    for (let seed = 1; seed <= FRAMES; seed++) {
      const { field, describe: says } = randomField(seed);
      const { reading } = await readBytes(await fileOf(field, coding, WIDTH, HEIGHT, seed));
      const truth = fieldTruth(field, { ...reading.grid, widthPx: WIDTH, heightPx: HEIGHT });
      const brightest = Math.max(...truth.centres.map(([, y]) => y));
      const worse = (key: keyof typeof worst, value: number) => {
        if (!(value <= worst[key])) {
          worst[key] = value;
          at[key] = says;
        }
      };
      worse('ev', rootMeanSquare(reading.falloff.evMap.map((ev, i) => ev! - truth.evMap[i]!)));
      worse(
        'evPointwise',
        rootMeanSquare(
          reading.falloff.evMap.map((ev, i) => ev! - Math.log2(truth.centres[i]![1] / brightest)),
        ),
      );
      worse(
        'uv',
        rootMeanSquare(
          reading.tint.uPrimeMap.map((u, i) =>
            Math.hypot(u! - truth.uPrimeMap[i]!, reading.tint.vPrimeMap[i]! - truth.vPrimeMap[i]!),
          ),
        ),
      );
      if (truth.gradient.ev > 0.1) {
        const turn = reading.gradient.angleDeg! - truth.gradient.angleDeg;
        worse('deg', Math.abs(((turn + 540) % 360) - 180));
        worse('stops', Math.abs(reading.gradient.ev / truth.gradient.ev - 1));
        worse('mired', Math.abs(reading.gradient.mired! - truth.gradient.mired));
      }
      worse(
        'castUv',
        Math.hypot(reading.cast.uPrime - truth.cast.uPrime, reading.cast.vPrime - truth.cast.vPrime),
      );
      worse('castMired', Math.abs(reading.cast.mired! - truth.cast.mired));
      worse('castDuv', Math.abs(reading.cast.duv! - truth.cast.duv));
    }
    console.log(
      `measured: ${coding}, worst of ${FRAMES} frames: ${JSON.stringify(worst)}`,
      process.env.WHERE ? at : '',
    );
    expect(worst.ev).toBeLessThanOrEqual(LIMITS[coding].ev);
    expect(worst.uv).toBeLessThanOrEqual(LIMITS[coding].uv);
    expect(worst.deg).toBeLessThanOrEqual(1);
    expect(worst.stops).toBeLessThanOrEqual(0.02);
    expect(worst.mired).toBeLessThanOrEqual(1);
    expect(worst.castUv).toBeLessThanOrEqual(0.0003);
    expect(worst.castMired).toBeLessThanOrEqual(1);
    expect(worst.castDuv).toBeLessThanOrEqual(0.0003);
  });
});
