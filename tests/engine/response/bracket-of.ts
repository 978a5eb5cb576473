import { type BracketOptions, type BracketPhase, readBracket } from '../../../src/engine/read-bracket.ts';
import type { CameraResponse } from '../../../src/engine/response/camera-response.ts';
import { nodePlatform } from '../../node-platform.ts';
import { toJpeg } from '../../synthetic/encode.ts';
import type { ExifFacts } from '../../synthetic/exif-block.ts';
import { exposedBy, type KnownField, randomField } from '../../synthetic/known-field.ts';
import { type RenderedFrame, renderFrame } from '../../synthetic/render-frame.ts';
import { type ToneCurve, toneCurve } from '../../synthetic/tone-curve.ts';

/** Marked times, and what a shutter marked so does. */
export const MARKED = [
  { exposureTime: [1, 8], stops: 0 },
  { exposureTime: [1, 15], stops: -1 },
  { exposureTime: [1, 30], stops: -2 },
  { exposureTime: [1, 60], stops: -3 },
  { exposureTime: [1, 125], stops: -4 },
] as const;

export const TONE = toneCurve(1.4);

export interface BracketParts {
  readonly field?: KnownField;
  readonly tone?: ToneCurve;
  readonly marks?: readonly { readonly exposureTime: readonly [number, number]; readonly stops: number }[];
  /** Changes what each frame's Exif says. */
  readonly exif?: (frame: number) => ExifFacts;
  /** What stands in front of the light in each frame. */
  readonly seen?: (frame: number, field: KnownField) => KnownField;
  readonly size?: (frame: number) => readonly [number, number];
  /** Changes codes before they are written. */
  readonly coded?: (frame: number, picture: RenderedFrame) => void;
}

export const BACKGROUND = randomField(11, { family: 'quadratic', spreadEv: 1, peak: 0.95 }).field;

/** A bracket's files as a camera would write them: 8-bit JPEG with Exif. */
export function bracketOf({
  field = BACKGROUND,
  tone = TONE,
  marks = MARKED,
  exif = () => ({}),
  seen = (_, its) => its,
  size = () => [192, 128],
  coded = () => {},
}: BracketParts = {}) {
  return Promise.all(
    marks.map(async ({ exposureTime, stops }, i) => {
      const [widthPx, heightPx] = size(i);
      const raster = { widthPx, heightPx, bits: 8, curve: 'srgb', seed: 40 + i } as const;
      const light = exposedBy(seen(i, field), stops);
      const frame = renderFrame(light, { ...raster, electronsAtFull: 30_000, tone });
      coded(i, frame);
      const facts = {
        model: 'Model A',
        colourSpace: 1,
        fNumber: [56, 10],
        iso: 100,
        whiteBalance: 1,
      } as const;
      const bytes = await toJpeg(frame, {
        quality: 95,
        chroma: '4:2:0',
        exif: { ...facts, focalLengthMm: 85, exposureTime, ...exif(i) },
      });
      return { name: `frame-${i}.jpg`, bytes };
    }),
  );
}

export async function bracketRead(
  parts: BracketParts = {},
  options: BracketOptions = {},
  onProgress?: (phase: BracketPhase, fraction: number) => void,
): Promise<CameraResponse> {
  return readBracket(await bracketOf(parts), options, nodePlatform, onProgress);
}
