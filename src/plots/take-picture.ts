import type { Reading } from '../engine/reading.ts';
import type { MapPicture } from './falloff-picture.ts';
import { lightnessToGrey } from './lightness-to-grey.ts';

/**
 * A take's region as light as it was shot, one pixel a cell: nothing strengthened, so that takes can be told apart at a
 * glance by what the camera saw. `brightestEv`: the brightest cell against white, in stops; `null` where clipping hides it.
 */
export function takePicture({ grid, falloff }: Reading, brightestEv: number | null): MapPicture {
  const { columns, rows } = grid;
  const rgba = new Uint8ClampedArray(columns * rows * 4);
  falloff.evMap.forEach((ev, i) => {
    if (ev === null) return;
    const grey = lightnessToGrey(lightness(2 ** Math.min(0, (brightestEv ?? 0) + ev)));
    rgba.set([grey, grey, grey, 255], i * 4);
  });
  return { columns, rows, rgba, strengthened: 1 };
}

/** L* of a luminance against white. Source: ISO/CIE 11664-4. */
function lightness(y: number): number {
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (y * 24389) / 27;
}
