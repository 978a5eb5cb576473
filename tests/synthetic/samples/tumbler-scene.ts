import { toJpeg } from '../encode.ts';
import type { KnownField } from '../known-field.ts';
import { codedLight, type Subject, type SubjectScene, sceneLight } from '../subject-scene.ts';
import { glass, opaque } from '../subjects.ts';
import type { Sample } from './sample.ts';
import { sampleField } from './sample-truth.ts';

/** Top of the shelf that the tumblers stand on, as a share of the frame's height. */
const SHELF = 0.82;

/** Two blown tumblers on a dark shelf before the sample's light: clear and amber; places in shares of the frame. */
export function tumblerScene(field: KnownField, widthPx: number, heightPx: number): SubjectScene {
  const tumbler = (x: number, heightShare: number, tint: readonly [number, number, number]): Subject => {
    const centre = x * widthPx;
    const foot = SHELF * heightPx;
    const height = heightShare * heightPx;
    const halfAt = (y: number) =>
      0.085 * widthPx * (0.78 + 0.22 * Math.min(Math.max((foot - y) / height, 0), 1));
    const shape = (px: number, py: number) =>
      Math.max(Math.abs(px - centre) - halfAt(py), foot - height - py, py - foot);
    const clear = glass(shape, field, widthPx, heightPx, (px, py) => [
      -1.6 * (px - centre),
      -1.2 * (py - foot + height / 2),
    ]);
    return {
      distancePx: shape,
      light: (px, py, behind) => {
        const through = clear.light(px, py, behind);
        const depth = foot - py < 0.05 * heightPx ? 0.62 : 1; // the thick foot
        return [through[0] * tint[0] * depth, through[1] * tint[1] * depth, through[2] * tint[2] * depth];
      },
    };
  };
  const shelf = opaque((_, y) => SHELF * heightPx - y, [0.035, 0.034, 0.033], 0.05);
  return {
    ...{ field, widthPx, heightPx },
    subjects: [shelf, tumbler(0.36, 0.44, [1, 1, 1]), tumbler(0.64, 0.34, [0.95, 0.62, 0.22])],
  };
}

/** The sample's light with the tumblers before it, coded as the sample itself is; JPEG only. */
export async function subjectBytes(sample: Sample): Promise<Uint8Array> {
  const { widthPx, heightPx, electronsAtFull, seed, stored } = sample;
  if (stored.as !== 'jpeg') throw new RangeError('subjects of samples are coded as JPEG');
  const { light } = sceneLight(tumblerScene(sampleField(sample), widthPx, heightPx));
  const coding = { bits: 8, curve: 'srgb', electronsAtFull, seed: seed + 1000 } as const;
  const frame = codedLight(light, { widthPx, heightPx, ...coding });
  return toJpeg(frame, { ...stored, exif: { ...sample.exif, orientation: 1 } });
}
