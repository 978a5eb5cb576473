import type { BracketPhase } from '../../engine/read-bracket.ts';
import type { CameraResponse } from '../../engine/response/camera-response.ts';
import { decimals, plusMinusStops, stops } from './figures.ts';

/** From this ± on a response gains little over none. */
const COARSE_EV = 0.15;

export const BRACKET_OFFER =
  'A JPEG hides part of the falloff behind the camera’s tone curve. Three or more frames of the still background show that curve: alike in all but their shutter times, two stops apart or more from the first to the last, white balance fixed.';

export const STEPS_LABEL =
  'Steps of flash power in stops, such as 0, −1, −2, one for each frame in the order of the files’ names; left empty, the shutter times count';

/** A list of stops in any usual hand: "0, -1, -2", "0 −0.5 −1", "0; −1,5; −3". @returns `null` where it is none. */
export function parseSteps(text: string): number[] | null {
  const plain = text.trim().replace(/[−–]/g, '-');
  const parts = /[\s;]/.test(plain)
    ? plain.split(/[\s;]+/).map((part) => part.replace(/,$/, '').replace(',', '.'))
    : plain.split(',');
  const steps = parts.filter((part) => part !== '').map(Number);
  return steps.length > 0 && steps.every(Number.isFinite) ? steps : null;
}

export function stepsSlipWords(typed: string): string {
  return `“${typed}” is no list of stops, such as 0, −1, −2: enter one number for each frame, in the order of the files’ names, or nothing to go by the shutter times.`;
}

export function bracketProgressWords(phase: BracketPhase, fraction: number, frames: number): string {
  if (phase === 'fitting') return 'Fitting the curve';
  return `Reading frame ${Math.min(frames, Math.floor(fraction * frames) + 1)} of ${frames}`;
}

/** How good a response is, and from what. */
export function responseWords(response: CameraResponse, firstStopBySrgb: number): string {
  const { plusMinusEv, fromStops, madeFrom } = response;
  const steps = madeFrom.stopsBy === 'shutter' ? 'of shutter time' : 'of power, as entered';
  const { codes } = madeFrom;
  const says = [
    `From ${madeFrom.frames.length} frames over ${stops(fromStops)} ${steps}: differences of light are good to ${plusMinusStops(plusMinusEv)}${codes ? ` from code ${lowest(codes)} to ${highest(codes)}; beyond these the curve is only drawn on` : ''}.`,
  ];
  if (Number.isFinite(firstStopBySrgb))
    says.push(
      `Read as plain sRGB, the first stop below its brightest code would show as ${stops(firstStopBySrgb, 2)}.`,
    );
  if (plusMinusEv > COARSE_EV)
    says.push('That is coarse: add frames between these, or shoot a background with more falloff.');
  return says.join(' ');
}

export function cameraWords(camera: string | null): string {
  return camera === null ? 'a camera that its files do not name' : camera;
}

/** What is to be read by a response: without a name its camera's other frames can't be told from any. */
export function useWords(camera: string | null): string {
  return camera === null ? 'Read the frames of this set-up by it' : `Read the JPEGs of ${camera} by it`;
}

/** Which curve is whose. */
export function channelWords(channels: readonly string[]): string {
  if (channels.length === 3) return 'red, green and blue';
  return channels.join(' and ');
}

export function plotSummary(response: CameraResponse): string {
  const half = halfStop(response);
  return `The light of each code of ${cameraWords(response.camera)}, in stops below white${half}. Beside it sRGB’s own curve, dashed.`;
}

const halfStop = ({ channels }: CameraResponse) =>
  `: code 128 lies ${decimals(-channels.green[128]!, 1)} stops below`;

type Codes = NonNullable<CameraResponse['madeFrom']['codes']>;
const lowest = (codes: Codes) => Math.max(...Object.values(codes).map(([low]) => low));
const highest = (codes: Codes) => Math.min(...Object.values(codes).map(([, high]) => high));
