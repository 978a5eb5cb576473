import { expect, test } from 'vitest';
import { type ExposedTake, lightOver } from '../../../src/engine/compare/light-reaching.ts';
import type { Exposure } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

function exposed(
  meanLevelEv: number | null,
  exposure: Partial<Exposure> | null,
  light: ExposedTake['light'] = 'continuous',
): ExposedTake {
  const full = { seconds: 1 / 60, fNumber: 8, iso: 100, focalLengthMm: null, takenAt: null, ...exposure };
  const reading = readingFixture();
  return {
    reading: { ...reading, frame: { ...reading.frame, exposure: exposure === null ? null : full } },
    light,
    meanLevelEv,
  };
}

test('a sheet that eats a stop is told so, however the exposure made up for it', () => {
  const bare = exposed(-1, {});
  expectWithin(lightOver(exposed(-2, {}), bare) as number, -1, 1e-12);
  expectWithin(lightOver(exposed(-1, { seconds: 1 / 30 }), bare) as number, -1, 1e-12);
  expectWithin(lightOver(exposed(-1, { fNumber: 5.6 }), bare) as number, -1, 1e-12);
  expectWithin(lightOver(exposed(-1, { iso: 200 }), bare) as number, -1, 1e-12);
  expectWithin(
    lightOver(exposed(-1.3, { seconds: 1 / 125, iso: 250, fNumber: 6.3 }), bare) as number,
    -0.3 + 1 - 4 / 3 - 2 / 3,
    1e-9,
  );
});

test('marks stand for the series behind them: f/5.6 to f/8, and 1/60 to 1/125, are whole stops', () => {
  for (const [from, to] of [
    [{ fNumber: 5.6 }, { fNumber: 8 }],
    [{ fNumber: 11 }, { fNumber: 16 }],
    [{ seconds: 1 / 60 }, { seconds: 1 / 125 }],
    [{ iso: 1600 }, { iso: 800 }],
  ])
    expectWithin(lightOver(exposed(-1, to!), exposed(-1, from!)) as number, 1, 1e-12);
});

test('of flash the shutter’s time does not count; of light that nobody named, only equal times tell', () => {
  const flash = (seconds: number) => exposed(-1, { seconds }, 'flash');
  expect(lightOver(flash(1 / 60), flash(1 / 200))).toBe(0);
  const unnamed = (seconds: number) => exposed(-1, { seconds }, null);
  expect(lightOver(unnamed(1 / 60), unnamed(1 / 200))).toBe('kind-of-light');
  expect(lightOver(unnamed(1 / 60), unnamed(1 / 60))).toBe(0);
  expect(lightOver(exposed(-1, { seconds: 1 / 60 }, 'flash'), exposed(-1, { seconds: 1 / 30 }))).toBe(
    'kind-of-light',
  );
});

test('what is not known is said by reason', () => {
  const known = exposed(-1, {});
  expect(lightOver(exposed(-1, null), known)).toBe('no-exposure');
  expect(lightOver(known, exposed(-1, { iso: null }))).toBe('no-exposure');
  expect(lightOver(known, exposed(-1, { seconds: null }))).toBe('no-exposure');
  expect(lightOver(exposed(-1, { seconds: null }, 'flash'), exposed(-1, {}, 'flash'))).toBe(0);
  expect(lightOver(exposed(null, {}), known)).toBe('no-level');
  const { reading } = known;
  const clipped = { ...known, reading: { ...reading, falloff: { ...reading.falloff, isLowerBound: true } } };
  expect(lightOver(known, clipped)).toBe('clipped');
});
