import type { OutCoding } from '../../../src/engine/correct/apply-gains.ts';
import { lightTable } from '../../../src/engine/frame/light-table.ts';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { parseProfile } from '../../../src/engine/profile/parse-profile.ts';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import { decodeSrgb } from '../../synthetic/code-thresholds.ts';
import { toPng } from '../../synthetic/encode.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';
import { codedLight, type SceneLight, type SubjectScene, sceneLight } from '../../synthetic/subject-scene.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { measureBytes } from '../known-frames.ts';

/** A scene as shot and its blank, with the truth beside them. */
export interface ShotScene {
  readonly frame: LinearFrame;
  readonly blank: LinearFrame;
  readonly truth: SceneLight;
  /** The background alone as the frame's exposure sees it, without shadow, texture or subject. */
  readonly bare: Float64Array;
}

const WELL_ELECTRONS = 30_000;

export function withoutSubject({ field, widthPx, heightPx, texture }: SubjectScene): SubjectScene {
  return { field, widthPx, heightPx, subjects: [], ...(texture && { texture }) };
}

/** Shoots a scene and its blank in 16 bits with shot noise, the frame exposed by so many stops more. */
export function shoot(scene: SubjectScene, exposedEv = -0.13, bits: 8 | 16 = 16): ShotScene {
  const { widthPx, heightPx } = scene;
  const coding = { widthPx, heightPx, bits, curve: 'srgb', electronsAtFull: WELL_ELECTRONS } as const;
  const truth = sceneLight(scene);
  const coded = codedLight(truth.light, { ...coding, seed: 11, exposedEv });
  const factor = 2 ** exposedEv;
  const exposed = (light: Float64Array) => light.map((value) => value * factor);
  return {
    frame: frameOfCodes(coded),
    blank: frameOfCodes(blankOf(scene, bits)),
    truth: {
      light: exposed(truth.light),
      ofBackground: exposed(truth.ofBackground),
      covered: truth.covered,
    },
    bare: exposed(sceneLight({ field: scene.field, widthPx, heightPx, subjects: [] }).light),
  };
}

export function blankOf(scene: SubjectScene, bits: 8 | 16 = 16): RenderedFrame {
  const { widthPx, heightPx } = scene;
  return codedLight(sceneLight(withoutSubject(scene)).light, {
    widthPx,
    heightPx,
    bits,
    curve: 'srgb',
    electronsAtFull: WELL_ELECTRONS,
    seed: 12,
  });
}

/** The profile that the tool makes of a blank, written and read again. */
export async function profileOfBlank(blank: RenderedFrame): Promise<Profile> {
  const measured = await measureBytes(toPng(blank));
  return parseProfile(JSON.stringify(makeProfile({ ...measured, reading: measured.measurement })));
}

export function srgbOut(bitsPerSample: 8 | 16): OutCoding {
  const table = lightTable(bitsPerSample, decodeSrgb);
  return { channels: 3, bitsPerSample, lightAtCode: { red: table, green: table, blue: table } };
}

/** Linear light of what was written. */
export function lightOf(samples: Uint8Array | Uint16Array, out: OutCoding): Float64Array {
  return Float64Array.from(samples, (code) => out.lightAtCode.green[code]!);
}

/**
 * What a perfect correction makes of a scene: every bit of the background's light brought to the level that the
 * profile aims at, all other light left alone.
 */
export function perfectly({ truth, bare }: ShotScene, level: readonly number[]): Float64Array {
  return truth.light.map((value, at) => value + truth.ofBackground[at]! * (level[at % 3]! / bare[at]! - 1));
}

/** The even light that a profile brings the bare background to, in the frame's exposure. */
export function levelAimedAt(
  { bare }: ShotScene,
  corrected: Float64Array,
  isBare: (pixel: number) => boolean,
) {
  const sums = [0, 0, 0];
  let pixels = 0;
  for (let pixel = 0; pixel < bare.length / 3; pixel++) {
    if (!isBare(pixel)) continue;
    pixels++;
    for (const channel of [0, 1, 2]) sums[channel]! += corrected[pixel * 3 + channel]!;
  }
  return sums.map((sum) => sum / pixels);
}
