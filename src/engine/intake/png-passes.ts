import type { PngHeader } from './png-header.ts';

/** One reduced picture within the stream: its pixels go to every `stepX`-th column and `stepY`-th row. */
export interface PngPass {
  readonly startX: number;
  readonly startY: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Bytes of a row without its filter byte. */
  readonly rowBytes: number;
}

/** Adam7, ISO/IEC 15948:2004, 8.2: start and step, across and down, of the seven passes. */
const ADAM7: readonly (readonly [number, number, number, number])[] = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
];

/** The passes of a picture in the order of the stream, empty ones left out. */
export function pngPasses({ widthPx, heightPx, depth, storedChannels, interlaced }: PngHeader): PngPass[] {
  const steps = interlaced ? ADAM7 : ([[0, 0, 1, 1]] as const);
  return steps
    .map(([startX, startY, stepX, stepY]) => {
      const width = Math.ceil((widthPx - startX) / stepX);
      return {
        startX,
        startY,
        stepX,
        stepY,
        widthPx: width,
        heightPx: Math.ceil((heightPx - startY) / stepY),
        rowBytes: Math.ceil((width * storedChannels * depth) / 8),
      };
    })
    .filter((pass) => pass.widthPx > 0 && pass.heightPx > 0);
}
