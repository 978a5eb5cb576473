import { warmthFromD65 } from '../../../src/engine/colour/warmth.ts';
import type { Family } from '../../../src/engine/lamps/fit-set.ts';
import { setModel } from '../../../src/engine/lamps/set-model.ts';
import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';
import { startingPoints } from '../../../src/engine/lamps/starting-points.ts';
import { mean } from '../../../src/engine/numeric/mean.ts';
import type { Setup } from '../../../src/engine/setup.ts';

/** The plain family of sets of an arrangement, and where a reading begins to look for samples in it. */
export function familyOf(samples: SetSamples, setup: Setup, slipsMade = 0): Family {
  const cast = warmthFromD65(mean([...samples.uPrime]), mean([...samples.vPrime]))!;
  const model = setModel(setup, samples.aspect, cast, {}, slipsMade);
  return { model, starts: startingPoints(model, samples, cast), rarer: 0 };
}
