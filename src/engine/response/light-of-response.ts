import type { ResponseChannels } from './camera-response.ts';

/** From a code, 0 to 1, to linear light, white 1. */
export type DecodeByResponse = (code: number) => number;

/**
 * Light by a response, also between its codes: there it runs straight, as what is worked out of 8 bits may be written
 * in 16. One and the same function where channels share a curve.
 */
export function lightOfResponse({
  red,
  green,
  blue,
}: ResponseChannels<readonly number[]>): ResponseChannels<DecodeByResponse> {
  const ofGreen = decodeBy(green);
  const shared = (curve: readonly number[]) =>
    curve.every((stops, code) => stops === green[code]) ? ofGreen : decodeBy(curve);
  return { red: shared(red), green: ofGreen, blue: shared(blue) };
}

function decodeBy(curve: readonly number[]): DecodeByResponse {
  const light = Float64Array.from(curve, (stops) => 2 ** stops);
  const last = light.length - 1;
  return (code) => {
    const position = Math.min(1, Math.max(0, code)) * last;
    const nearest = Math.round(position);
    // a code as stored gets its own light, whatever the division left of it
    if (Math.abs(position - nearest) < 1e-9) return light[nearest]!;
    const below = Math.floor(position);
    return light[below]! + (light[below + 1]! - light[below]!) * (position - below);
  };
}
