import type { CameraResponse } from './camera-response.ts';
import { isSrgbResponse } from './srgb-response.ts';

/** One or two sentences, for `lightSays`: by which response a frame's light was read, and how good that is. */
export function responseSays(response: CameraResponse, frameCamera: string | null): string {
  if (isSrgbResponse(response))
    return 'The file is known to be coded by sRGB’s own curve, with no tone curve laid on, and is read so.';
  const { camera, madeFrom, fromStops, plusMinusEv } = response;
  const { codes } = madeFrom;
  const whose = camera === null ? 'a camera that its files do not name' : `the camera ${camera}`;
  const says = `In place of that curve its light is read by the response of ${whose}, recovered from ${madeFrom.frames.length} exposures over ${rounded(fromStops)} stops, in the picture style of these, and good to ± ${plusMinusEv.toFixed(3)} stop${codes ? ` from code ${codes.green[0]} to ${codes.green[1]}; beyond these it is drawn on` : ''}.`;
  if (camera === null || frameCamera === null || camera === frameCamera) return says;
  return `${says} This frame was shot with another camera (${frameCamera}), whose response may be another: recover it from that camera’s own frames.`;
}

/** Why a response that was handed in was not gone by. */
export function responseNotUsed(bitsPerSample: number): string {
  return bitsPerSample === 8
    ? 'The camera’s response was not used: this file is coded linearly, so there is no tone curve to undo.'
    : `The camera’s response was not used: it holds for the camera’s 8-bit pictures, and this file has ${bitsPerSample} bits.`;
}

const rounded = (stops: number) => Math.round(stops * 10) / 10;
