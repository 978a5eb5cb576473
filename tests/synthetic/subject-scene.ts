import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { codeRounder, type TransferCurve } from './code-thresholds.ts';
import type { KnownField } from './known-field.ts';
import type { RenderedFrame } from './render-frame.ts';
import { cheapNormal, poissonElectrons } from './shot-noise.ts';

type Light = readonly [number, number, number];

/** Something in front of the background; places and distances in pixels of the upright frame. */
export interface Subject {
  /** Distance to its outline, below 0 inside. */
  readonly distancePx: (x: number, y: number) => number;
  /** Its own light where the background behind it has this one. */
  readonly light: (x: number, y: number, behind: Light) => Light;
}

export interface SubjectScene {
  readonly field: KnownField;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly subjects: readonly Subject[];
  /** What a shadow lets through, 0 to 1. */
  readonly shadow?: (x: number, y: number) => number;
  /** What dust and weave of the background itself let through. */
  readonly texture?: (x: number, y: number) => number;
  /** How far the camera's view lies to the right of and below that of the blank. */
  readonly shiftPx?: { readonly right: number; readonly down: number };
}

/** A scene's light and what of it comes from the background, linear, interleaved. */
export interface SceneLight {
  readonly light: Float64Array;
  readonly ofBackground: Float64Array;
  /** Coverage by subjects, 0 to 1. */
  readonly covered: Float64Array;
}

/** Width of the lens's blur of an outline, as the scale of a logistic step. */
const BLUR_PX = 0.45;

/** Photographs a scene without noise: an outline is as soft as a lens makes it, and mixes light, not codes. */
export function sceneLight(scene: SubjectScene): SceneLight {
  const { field, widthPx, heightPx, subjects, shadow, texture, shiftPx } = scene;
  const light = new Float64Array(widthPx * heightPx * 3);
  const ofBackground = new Float64Array(light.length);
  const covered = new Float64Array(widthPx * heightPx);
  for (let row = 0, at = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, at++) {
      const x = column + 0.5 + (shiftPx?.right ?? 0);
      const y = row + 0.5 + (shiftPx?.down ?? 0);
      const factor = (shadow?.(x, y) ?? 1) * (texture?.(x, y) ?? 1);
      const [r, g, b] = field(x / widthPx, y / heightPx);
      const behind: Light = [r * factor, g * factor, b * factor];
      let seen: Light = behind;
      let through = 1;
      for (const subject of subjects) {
        const cover = 1 / (1 + Math.exp(subject.distancePx(x, y) / BLUR_PX));
        if (cover < 1e-6) continue;
        const own = subject.light(x, y, behind);
        seen = [mix(seen[0], own[0], cover), mix(seen[1], own[1], cover), mix(seen[2], own[2], cover)];
        through *= 1 - cover;
      }
      covered[at] = 1 - through;
      for (const channel of [0, 1, 2] as const) {
        light[at * 3 + channel] = seen[channel];
        ofBackground[at * 3 + channel] = behind[channel] * through;
      }
    }
  }
  return { light, ofBackground, covered };
}

function mix(a: number, b: number, share: number): number {
  return a + share * (b - a);
}

export interface Exposing {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bits: 8 | 16;
  readonly curve: TransferCurve;
  readonly electronsAtFull: number | null;
  readonly seed: number;
  /** Stops by which the frame is exposed more. */
  readonly exposedEv?: number;
}

/** A sensor's count of light and its codes. */
export function codedLight(light: Float64Array, exposing: Exposing): RenderedFrame {
  const { widthPx, heightPx, bits, curve, electronsAtFull, seed, exposedEv = 0 } = exposing;
  const random = seededRandom(seed);
  const normal = cheapNormal(random);
  const nearest = codeRounder(bits, curve);
  const samples = bits === 8 ? new Uint8Array(light.length) : new Uint16Array(light.length);
  const factor = 2 ** exposedEv;
  for (let at = 0; at < light.length; at++) {
    const value = Math.max(0, light[at]! * factor);
    samples[at] = nearest(
      electronsAtFull === null
        ? value
        : poissonElectrons(value * electronsAtFull, normal, random) / electronsAtFull,
    );
  }
  return { widthPx, heightPx, bits, samples };
}
