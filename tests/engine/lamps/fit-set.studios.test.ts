import { describe, expect, test } from 'vitest';
import type { CauseFacts } from '../../synthetic/random/planted-cause.ts';
import { randomStudio } from '../../synthetic/random/random-studio.ts';
import { placeErrors, unequalColourError } from '../studios/figure-errors.ts';
import { measureStudio, readStudio } from '../studios/studio-frames.ts';

describe('two lights of unlike colour', () => {
  // lights far apart, whose colours mix nearly as a tint would that grows over the whole frame
  test.each([39, 119, 492])('are told from a tinted surface, seed %i', async (seed) => {
    const studio = randomStudio(seed);
    const planted = studio.planted[0] as CauseFacts;
    if (planted.kind !== 'unequal-colour') throw new Error(`seed ${seed} leads with ${planted.kind}`);
    const reading = readStudio(studio, await measureStudio(studio));
    const { mired } = reading.set!.balance!;
    const error = unequalColourError(studio, reading)!;
    console.log(
      `measured: seed ${seed}: lights unequal by ${mired.value.toFixed(1)} ± ${mired.plusMinus.toFixed(1)} mired, off by ${error.toFixed(1)}`,
    );
    expect(reading.set!.tint).toBeNull();
    const kinds = reading.findings.map(({ kind }) => kind);
    expect(kinds).toContain('unequal-colour');
    expect(kinds.filter((kind) => kind.startsWith('tinted-'))).toEqual([]);
    expect(Math.abs(error)).toBeLessThan(Math.min(10, mired.plusMinus));
  });
});

describe('one of two lights that is aimed past the middle', () => {
  // over to the other light’s side in a wide beam, past its own side in a narrow one
  test.each([190, 801])('is found, seed %i', async (seed) => {
    const studio = randomStudio(seed);
    const planted = studio.planted[0] as CauseFacts;
    if (planted.kind !== 'aimed-off') throw new Error(`seed ${seed} leads with ${planted.kind}`);
    const { set } = readStudio(studio, await measureStudio(studio));
    const errors = placeErrors(studio, { set }).map(({ rightWidths, downWidths }) =>
      Math.hypot(rightWidths, downWidths),
    );
    const { aimRight, aimDown } = set!.lights[planted.lamp]!;
    const aimError = Math.hypot(aimRight - planted.rightFrameWidths, aimDown - planted.downFrameWidths);
    console.log(
      `measured: seed ${seed}: aim off by ${aimError.toFixed(2)} frame widths, places by ${errors.map((error) => error.toFixed(2)).join(' and ')}; ${set!.leftOverEv.toFixed(4)} EV left over`,
    );
    expect(aimError).toBeLessThan(0.2);
    expect(Math.max(...errors)).toBeLessThan(0.25);
    expect(set!.leftOverEv).toBeLessThan(0.001);
  });
});
