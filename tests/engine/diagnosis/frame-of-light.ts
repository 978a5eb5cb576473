import sharp from 'sharp';
import { NO_DOUBT } from '../../../src/engine/frame/light-doubt.ts';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { FrameRectangle } from '../../../src/engine/reading.ts';
import { codeRounder, lightOfCode } from '../../synthetic/code-thresholds.ts';

/** A scene: linear light (1 is the white code) at a place across the frame, and how it was photographed. */
export interface Scene {
  readonly light: (x: number, y: number) => number;
  /** Per channel; white light where left out. */
  readonly colour?: readonly [number, number, number];
  readonly widthPx?: number;
  readonly heightPx?: number;
  readonly bits?: 8 | 16;
  /** Electrons at the white code; no noise where left out. */
  readonly electrons?: number;
  /** Standard deviation of the dark noise, as light. */
  readonly darkNoise?: number;
  readonly jpegQuality?: number;
  readonly seed?: number;
}

/** Photographs a scene in sRGB codes and averages it into cells with the engine's own grid. */
export async function gridOfScene(scene: Scene): Promise<CellGrid> {
  const { widthPx = 768, heightPx = 512, bits = 8, colour = [1, 1, 1], electrons, darkNoise = 0 } = scene;
  const random = seededRandom(scene.seed ?? 1);
  const round = codeRounder(bits, 'srgb');
  const samples =
    bits === 8 ? new Uint8Array(widthPx * heightPx * 3) : new Uint16Array(widthPx * heightPx * 3);
  for (let pixel = 0; pixel < widthPx * heightPx; pixel++) {
    const x = ((pixel % widthPx) + 0.5) / widthPx;
    const y = (Math.floor(pixel / widthPx) + 0.5) / heightPx;
    const level = scene.light(x, y);
    for (let channel = 0; channel < 3; channel++) {
      const mean = level * colour[channel]!;
      const variance = (electrons === undefined ? 0 : mean / electrons) + darkNoise ** 2;
      samples[pixel * 3 + channel] = round(
        variance > 0 ? mean + Math.sqrt(variance) * random.normal() : mean,
      );
    }
  }
  const coded =
    scene.jpegQuality === undefined
      ? samples
      : await throughJpeg(samples as Uint8Array, widthPx, heightPx, scene.jpegQuality);
  return gridOfCodes(
    coded,
    widthPx,
    heightPx,
    bits,
    scene.jpegQuality === undefined ? null : { lumaCodes: 0.375, chromaCodes: 0.375, chromaBlockPx: 8 },
  );
}

/** Averages interleaved sRGB codes, three a pixel, into cells. */
export function gridOfCodes(
  samples: Uint8Array | Uint16Array,
  widthPx: number,
  heightPx: number,
  bits: 8 | 16,
  jpegDcSteps: LinearFrame['jpegDcSteps'] = null,
  region?: FrameRectangle,
): CellGrid {
  const last = 2 ** bits - 1;
  const table = Float64Array.from({ length: last + 1 }, (_, code) => lightOfCode(code, bits, 'srgb'));
  const frame: LinearFrame = {
    widthPx,
    heightPx,
    channels: 3,
    bitsPerSample: bits,
    samples,
    lightAtCode: { red: table, green: table, blue: table },
    clipCode: last,
    floorCode: 0,
    // IEC 61966-2-1:1999, to four digits as printed
    toXyz: [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505],
    space: {
      name: 'sRGB',
      primaries: { red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06] },
      white: [0.3127, 0.329],
    },
    orientation: 1,
    jpegDcSteps,
    light: 'display-decoded',
    lightSays: '',
    doubt: NO_DOUBT,
  };
  return cellsFromFrame(frame, region);
}

async function throughJpeg(samples: Uint8Array, width: number, height: number, quality: number) {
  const raw = { raw: { width, height, channels: 3 as const } };
  const coded = await sharp(samples, raw).jpeg({ quality, chromaSubsampling: '4:2:0' }).toBuffer();
  return new Uint8Array(await sharp(coded).raw().toBuffer());
}
