import { xyzToUvPrime } from '../colour/chromaticity.ts';
import { type Matrix3, transformVector3, type Vector3 } from '../numeric/matrix3.ts';
import { quantile } from '../numeric/quantile.ts';
import type { FrameGains } from './frame-gains.ts';
import { fillGainRow } from './gain-row.ts';
import type { Matte } from './matte/find-matte.ts';
import { gained } from './space-change.ts';

/** How even and of one colour a background is. */
export interface BackgroundFigures {
  /** Stops of luminance from the 0.5th to the 99.5th percentile of the blocks. */
  readonly spreadEv: number;
  /** The 99.5th percentile of the blocks' distance in u′v′ from the colour of their mean. */
  readonly deltaUv: number;
  /** Stops of the blocks' median luminance below white; above it negative. */
  readonly belowWhiteEv: number;
  readonly blocks: number;
}

/** A part of the frame as stored, 0 to 1 either way. */
export interface StoredPart {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const WHOLE: StoredPart = { left: 0, top: 0, right: 1, bottom: 1 };

/** Pixels along a block's side. */
const BLOCK_PX = 64;
/** As far as a block may reach into what is no background. */
const LEAST_SHARE = 0.995;

/**
 * Figures of a frame's background before and after gains, over blocks of 64 pixels that are background throughout, by
 * the light of the matte's cells; `null` where fewer than two blocks are. `within`: the part that the gains are made for;
 * what shows round a lit background is not judged by it.
 */
export function backgroundBlocks(
  matte: Matte,
  gains: FrameGains,
  toXyz: Matrix3,
  within: StoredPart = WHOLE,
  blockPx = BLOCK_PX,
): { readonly before: BackgroundFigures; readonly after: BackgroundFigures } | null {
  const { columns, rows, background, cells } = matte;
  const side = Math.max(1, Math.round(blockPx / matte.pxPerCell));
  const first = Math.ceil(within.left * columns);
  const across = Math.floor((Math.floor(within.right * columns) - first) / side);
  const last = Math.floor(within.bottom * rows);
  const gain = gains.channels.map(() => new Float64Array(columns));
  const before: Vector3[] = [];
  const after: Vector3[] = [];
  for (let top = Math.ceil(within.top * rows); top + side <= last; top += side) {
    const found = new Float64Array(Math.max(0, across) * 7);
    for (let row = top; row < top + side; row++) {
      gains.channels.forEach((channel, at) => {
        fillGainRow(channel, row, rows, gain[at]!);
      });
      for (let column = first; column < first + across * side; column++) {
        const at = row * columns + column;
        const light: Vector3 = [cells[0][at]!, cells[1][at]!, cells[2][at]!];
        const [red, green = red, blue = red] = gain;
        const now = gained(light, [red![column]!, green![column]!, blue![column]!], gains.space);
        const into = Math.floor((column - first) / side) * 7;
        for (const channel of [0, 1, 2] as const) {
          found[into + channel]! += light[channel];
          found[into + 3 + channel]! += now[channel];
        }
        found[into + 6]! += background[at]!;
      }
    }
    for (let at = 0; at < found.length; at += 7) {
      if (found[at + 6]! < LEAST_SHARE * side ** 2 || !(found[at + 1]! > 0)) continue;
      const mean = (from: number): Vector3 => [
        found[from]! / side ** 2,
        found[from + 1]! / side ** 2,
        found[from + 2]! / side ** 2,
      ];
      before.push(transformVector3(toXyz, mean(at)));
      after.push(transformVector3(toXyz, mean(at + 3)));
    }
  }
  return before.length < 2 ? null : { before: figuresOf(before), after: figuresOf(after) };
}

function figuresOf(blocks: readonly Vector3[]): BackgroundFigures {
  const stops = blocks.map(([, luminance]) => Math.log2(luminance));
  const sum = [0, 1, 2].map((at) => blocks.reduce((total, xyz) => total + xyz[at]!, 0));
  const middle = xyzToUvPrime(sum[0]!, sum[1]!, sum[2]!);
  const away = blocks.map((xyz) => {
    const { uPrime, vPrime } = xyzToUvPrime(...xyz);
    return Math.hypot(uPrime - middle.uPrime, vPrime - middle.vPrime);
  });
  return {
    spreadEv: quantile(stops, 0.995) - quantile(stops, 0.005),
    deltaUv: quantile(away, 0.995),
    belowWhiteEv: -quantile(stops, 0.5),
    blocks: blocks.length,
  };
}
