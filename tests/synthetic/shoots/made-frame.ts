import type { RenderedFrame } from '../render-frame.ts';
import { codedLight, type SubjectScene, sceneLight } from '../subject-scene.ts';

export type MadeKind = 'blank' | 'subject' | 'lamp-off' | 'marker' | 'badly-exposed';

/** One frame of a made shoot, with what it truly is. */
export interface MadeFrame {
  readonly name: string;
  readonly kind: MadeKind;
  readonly scene: SubjectScene;
  /** Stops by which it was exposed more than the shoot's first frame, by its shutter time. */
  readonly exposedEv: number;
  readonly exposure: { readonly seconds: number; readonly fNumber: number; readonly iso: number };
  readonly seed: number;
}

/** The frame as a camera of 8 bits writes it, in sRGB. */
export function codedFrame({ scene, exposedEv, seed }: MadeFrame): RenderedFrame {
  const { widthPx, heightPx } = scene;
  const how = { bits: 8, curve: 'srgb', electronsAtFull: 20_000, seed, exposedEv } as const;
  return codedLight(sceneLight(scene).light, { widthPx, heightPx, ...how });
}
