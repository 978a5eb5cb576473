import { EngineError } from '../src/engine/engine-error.ts';

/** Refuses what a browser can't do in words, where otherwise a sound file would count as damaged. */
export function refuseWithout(
  part: 'OffscreenCanvas' | 'DecompressionStream',
  what: string,
  instead: string,
): void {
  if (part in globalThis) return;
  throw new EngineError(
    'unsupported-file',
    `This browser is too old to ${what}: it lacks ${part}. Use a newer one, or ${instead}.`,
    { lacks: part },
  );
}

/** Why no canvas is to be used: an older browser has none here; some alter it, so that pages can't tell people apart by it. */
export type CanvasLack = 'no-canvas' | 'altered';

const SIDE = 16;
let known: CanvasLack | null | undefined;

/** `null` where a canvas hands back what was put on it. */
export function canvasLack(): CanvasLack | null {
  if (known === undefined)
    known = !('OffscreenCanvas' in globalThis) ? 'no-canvas' : handsBack() ? null : 'altered';
  return known;
}

function handsBack(): boolean {
  const context = new OffscreenCanvas(SIDE, SIDE).getContext('2d', { willReadFrequently: true });
  if (!context) return false;
  const put = new ImageData(SIDE, SIDE);
  for (let i = 0; i < put.data.length; i++) put.data[i] = i % 4 === 3 ? 255 : (i * 37) & 255;
  context.putImageData(put, 0, 0);
  return context.getImageData(0, 0, SIDE, SIDE).data.every((code, i) => code === put.data[i]);
}

/** Refuses a picture whose codes would be altered on their way. */
export function refuseFalseCanvas(): void {
  if (canvasLack() !== 'altered') return;
  throw new EngineError(
    'unsupported-file',
    'This browser alters pictures that a page reads, to keep it from being recognised; light can’t be measured on them. Allow this page to read them (a protection against fingerprinting, in the browser’s settings), or export the picture as a 16-bit PNG or TIFF, which is read without the browser.',
  );
}
