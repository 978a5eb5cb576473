import { toJpeg } from '../synthetic/encode.ts';
import { SAMPLES } from '../synthetic/samples/sample-files.ts';
import { sampleField } from '../synthetic/samples/sample-truth.ts';
import { tumblerScene } from '../synthetic/samples/tumbler-scene.ts';
import { codedLight, sceneLight } from '../synthetic/subject-scene.ts';

const sample = SAMPLES.find(({ subjectFile }) => subjectFile !== undefined)!;
const { widthPx, heightPx, electronsAtFull, exif } = sample;

/** Tumblers before the light of the sample "Sheet lit off centre", with the noise of a seed; or the light not fired. */
export async function subjectFrame(
  name: string,
  seed: number | 'black',
): Promise<{ name: string; mimeType: string; buffer: Buffer }> {
  const { light } = sceneLight(tumblerScene(sampleField(sample), widthPx, heightPx));
  const isBlack = seed === 'black';
  const frame = codedLight(isBlack ? light.map((value) => value / 4096) : light, {
    ...{ widthPx, heightPx, bits: 8, curve: 'srgb', electronsAtFull, seed: isBlack ? 9 : seed },
  });
  const bytes = await toJpeg(frame, { quality: 96, chroma: '4:4:4', exif: { ...exif, orientation: 1 } });
  return { name, mimeType: 'image/jpeg', buffer: Buffer.from(bytes) };
}
