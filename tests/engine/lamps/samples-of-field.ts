import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { uvPrimeOfXyz } from '../../synthetic/colour-truth.ts';
import type { KnownField } from '../../synthetic/known-field.ts';

/** Linear sRGB to XYZ (IEC 61966-2-1). */
const TO_XYZ = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
] as const;

/** A field as the fit sees it, without a camera between: 15 × 10 samples, with noise of so many stops. */
export function samplesOfField(field: KnownField, aspect: number, noiseEv = 0, seed = 1): SetSamples {
  const random = seededRandom(seed);
  const across = 15;
  const down = Math.max(1, Math.round(across * aspect));
  const count = across * down;
  const samples = {
    x: new Float64Array(count),
    y: new Float64Array(count),
    ev: new Float64Array(count),
    uPrime: new Float64Array(count),
    vPrime: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const [x, y] = [((i % across) + 0.5) / across, (Math.floor(i / across) + 0.5) / down];
    const light = field(x, y);
    const xyz = TO_XYZ.map((row) => row[0] * light[0] + row[1] * light[1] + row[2] * light[2]);
    const [u, v] = uvPrimeOfXyz(xyz as unknown as Parameters<typeof uvPrimeOfXyz>[0]);
    samples.x[i] = x - 0.5;
    samples.y[i] = (y - 0.5) * aspect;
    samples.ev[i] = Math.log2(xyz[1]!) + noiseEv * random.normal();
    samples.uPrime[i] = u;
    samples.vPrime[i] = v;
  }
  const brightest = Math.max(...samples.ev);
  samples.ev.forEach((ev, i) => {
    samples.ev[i] = ev - brightest;
  });
  return { ...samples, aspect, levelEv: brightest, exposureEv: null };
}
