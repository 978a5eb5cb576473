import type { RenderedFrame } from './render-frame.ts';

/**
 * The frame as a file of the given Exif orientation (1 to 8) would store it, so that a reader that obeys the tag sees
 * `upright` again. Source: Exif 2.3 (CIPA DC-008), tag 274: where the stored row 0 and column 0 lie as seen.
 */
export function storedAs(upright: RenderedFrame, orientation: number): RenderedFrame {
  const turned = orientation >= 5;
  const [widthPx, heightPx] = turned
    ? [upright.heightPx, upright.widthPx]
    : [upright.widthPx, upright.heightPx];
  const samples =
    upright.bits === 8 ? new Uint8Array(upright.samples.length) : new Uint16Array(upright.samples.length);
  // side of the upright frame where stored row 0 and stored column 0 lie
  const fromBottom = [3, 4, 7, 8].includes(orientation);
  const fromRight = [2, 3, 6, 7].includes(orientation);
  for (let row = 0, at = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const [x, y] = turned ? [row, column] : [column, row];
      const seenX = fromRight ? upright.widthPx - 1 - x : x;
      const seenY = fromBottom ? upright.heightPx - 1 - y : y;
      const source = (seenY * upright.widthPx + seenX) * 3;
      samples[at++] = upright.samples[source]!;
      samples[at++] = upright.samples[source + 1]!;
      samples[at++] = upright.samples[source + 2]!;
    }
  }
  return { widthPx, heightPx, bits: upright.bits, samples };
}
