import { srgbDecode } from '../colour/srgb-curve.ts';
import { type CameraResponse, RESPONSE_CODES } from './camera-response.ts';

/** Black's log2 light: a response holds finite numbers, and this is nothing in any coding of 16 bits. */
export const BLACK_STOPS = -36;

/** Half a unit of the last digit that survives being written and read. */
const SAME_STOPS = 1e-6;

const CURVE: readonly number[] = Array.from({ length: RESPONSE_CODES }, (_, code) =>
  code === 0 ? BLACK_STOPS : Math.log2(srgbDecode(code / (RESPONSE_CODES - 1))),
);

/** The response of a file that is known to be coded by sRGB's curve and nothing else: exact. */
export function srgbResponse(): CameraResponse {
  return {
    schema: 'evenfield.response/1',
    camera: null,
    channels: { red: CURVE, green: CURVE, blue: CURVE },
    plusMinusEv: 0,
    fromStops: 0,
    madeFrom: { frames: [], stopsBy: 'entered', codes: null },
  };
}

/** Whether a response is sRGB's own curve, known rather than recovered. */
export function isSrgbResponse({ channels, plusMinusEv }: CameraResponse): boolean {
  return (
    plusMinusEv === 0 &&
    Object.values(channels).every((curve) =>
      CURVE.every((stops, code) => Math.abs(stops - curve[code]!) <= SAME_STOPS),
    )
  );
}
