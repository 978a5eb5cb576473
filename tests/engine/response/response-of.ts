import type { CameraResponse } from '../../../src/engine/response/camera-response.ts';
import { srgbResponse } from '../../../src/engine/response/srgb-response.ts';
import { decodeSrgb } from '../../synthetic/code-thresholds.ts';
import type { ToneCurve } from '../../synthetic/tone-curve.ts';

/** The exact response of a camera that lays a tone curve on before coding as sRGB, found by halving intervals. */
export function responseOf(tone: ToneCurve, parts: Partial<CameraResponse> = {}): CameraResponse {
  const curve = Array.from({ length: 256 }, (_, code) =>
    Math.log2(lightBefore(tone, decodeSrgb(code / 255))),
  );
  return {
    ...srgbResponse(),
    camera: 'Model A',
    plusMinusEv: 0.01,
    fromStops: 4,
    madeFrom: { frames: [], stopsBy: 'shutter', codes: null },
    channels: { red: curve, green: curve, blue: curve },
    ...parts,
  };
}

function lightBefore(tone: ToneCurve, after: number): number {
  if (after >= 1) return 1;
  let [low, high] = [2 ** -36, 1];
  for (let step = 0; step < 80; step++) {
    const middle = Math.sqrt(low * high);
    if (tone(middle) < after) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}
