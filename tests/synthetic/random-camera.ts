import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { toJpeg } from './encode.ts';
import type { ExifFacts } from './exif-block.ts';
import { exposedBy, type KnownField, randomField } from './known-field.ts';
import { renderFrame } from './render-frame.ts';
import { type ToneCurve, toneCurve } from './tone-curve.ts';

/** A camera drawn by its seed, and the frames that it took of one background. */
export interface RandomCamera {
  readonly tone: ToneCurve;
  readonly field: KnownField;
  /** Stops that were asked for, and what the shutter made of them. */
  readonly stops: readonly number[];
  readonly made: readonly number[];
  readonly electronsAtFull: number;
  readonly quality: number;
  readonly chroma: '4:4:4' | '4:2:0';
  readonly describe: string;
}

export function randomCamera(seed: number): RandomCamera {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const pick = <Of>(values: readonly Of[]) => values[Math.floor(random.uniform() * values.length)]!;
  const family = pick(['s-curve', 'shoulder', 'exponent'] as const);
  const strength = random.uniform();
  const tone = TONES[family](strength);
  const frames = pick([3, 4, 5, 6]);
  const step = pick(frames > 4 ? [2 / 3, 1] : [1, 4 / 3, 1.5]);
  const stops = Array.from({ length: frames }, (_, i) => -step * i);
  const shutterEv = pick([0, 0.005, 0.02]);
  const made = stops.map((asked) => asked + shutterEv * random.normal());
  const spreadEv = 2 ** between(Math.log2(0.2), Math.log2(2));
  const { field } = randomField(seed, { spreadEv, peak: between(0.7, 1.3) });
  return {
    ...{ tone, field, stops, made },
    electronsAtFull: 2 ** between(12, 16),
    quality: Math.round(between(88, 98)),
    chroma: pick(['4:4:4', '4:2:0']),
    describe: `seed ${seed}: ${family} ${strength.toFixed(2)}, ${frames} frames ${step.toFixed(2)} apart, shutter ± ${shutterEv}, ${spreadEv.toFixed(2)} EV`,
  };
}

/** Curves from linear light to what is then coded as sRGB, from plain to strong. */
const TONES: Readonly<Record<string, (strength: number) => ToneCurve>> = {
  's-curve': (strength) => toneCurve(1 + 0.7 * strength),
  /** A shoulder over a plain foot: (1 + c) x / (x + c). */
  shoulder: (strength) => (light) => {
    const c = 0.4 / (0.05 + strength);
    return light <= 0 ? 0 : light >= 1 ? 1 : ((1 + c) * light) / (light + c);
  },
  exponent: (strength) => (light) => (light <= 0 ? 0 : light >= 1 ? 1 : light ** (0.75 + 0.5 * strength)),
};

/** The bracket's files, brightest first. */
export function bracketFiles(
  { tone, field, made, electronsAtFull, quality, chroma }: RandomCamera,
  raster: { readonly widthPx: number; readonly heightPx: number; readonly seed: number },
  exifOf: (frame: number) => ExifFacts = () => ({}),
): Promise<Uint8Array[]> {
  return Promise.all(
    made.map((stops, i) => {
      const options = { ...raster, bits: 8, curve: 'srgb', seed: raster.seed + i } as const;
      const frame = renderFrame(exposedBy(field, stops), { ...options, electronsAtFull, tone });
      return toJpeg(frame, { quality, chroma, exif: exifOf(i) });
    }),
  );
}
