import type { LinearFrame } from '../../frame/linear-frame.ts';
import type { ShareOfBackground } from '../share-of-background.ts';
import { coverOf } from './cover.ts';
import type { Outline } from './outline.ts';

/** Cells from the outline at which a pixel's own light has no say any more: at least, and in widths of its blur. */
const LEAST_CERTAIN = 2.5;
const CERTAIN_BLURS = 1.1;
const MOST_CERTAIN = 14;
/** From this share of it on it has its say in part. */
const DOUBTFUL = 0.4;
/** Blur of an outline whose two lights cannot be told apart, in cells. */
const SOFT = 0.5;

/**
 * How much of each pixel's light is the background's: all of it outside the outline, nothing inside; across it, what
 * is left of the pixel once the subject's part is taken out, by how far its light lies between the two.
 *
 * @param said - what a brush says of the cells, as `brushed` does.
 */
export function shareByOutline(
  frame: LinearFrame,
  outline: Outline,
  said: Float32Array | null,
): ShareOfBackground {
  const { columns, rows, depth, blur, background, subject } = outline;
  const { widthPx, heightPx, channels, samples, lightAtCode } = frame;
  const tables = [lightAtCode.red, lightAtCode.green, lightAtCode.blue];
  const isGrey = channels < 3;
  // a cell's mean scatters less than its pixels do
  const noise = (outline.noise * widthPx) / columns;
  const plain = plainPlaces(outline, said);
  const across = placesAcross(widthPx, columns);
  const light = new Float64Array(3);
  const behind = new Float64Array(3);
  const own = new Float64Array(3);
  return (row, ...shares) => {
    const y = ((row + 0.5) / heightPx) * rows - 0.5;
    const above = Math.min(Math.max(Math.floor(y), 0), Math.max(rows - 2, 0));
    const v = Math.min(Math.max(y - above, 0), 1);
    for (let i = 0; i < widthPx; i++) {
      const at = above * columns + across.cell[i]!;
      const known = plain[at]!;
      if (known !== MIXED) {
        shares[0][i] = known;
        shares[1][i] = known;
        shares[2][i] = known;
        continue;
      }
      const u = across.part[i]!;
      const between = (plane: Float32Array) =>
        (1 - v) * ((1 - u) * plane[at]! + u * plane[at + 1]!) +
        v * ((1 - u) * plane[at + columns]! + u * plane[at + columns + 1]!);
      const stroke = said ? between(said) : 0;
      const inward = between(depth);
      const certain = certainFrom(between(blur));
      for (let channel = 0; channel < 3; channel++) {
        const code = samples[(row * widthPx + i) * channels + (isGrey ? 0 : channel)]!;
        light[channel] = tables[channel]![code]!;
        behind[channel] = between(background[channel as 0 | 1 | 2]);
        own[channel] = between(subject[channel as 0 | 1 | 2]);
      }
      const { share: found, trust } = coverOf(light, behind, own, noise);
      const isKnown = !Number.isNaN(found);
      let cover = 1 / (1 + Math.exp(-inward / SOFT));
      if (isKnown) cover = trust * found + (1 - trust) * cover;
      cover = Math.min(Math.max(cover, certainty(inward / certain)), 1 - certainty(-inward / certain));
      if (stroke !== 0) cover = stroke > 0 ? cover * (1 - stroke) : cover + (1 - cover) * -stroke;
      for (let channel = 0; channel < 3; channel++) {
        const left = light[channel]! - cover * own[channel]!;
        const through = (1 - cover) * behind[channel]!;
        const share = isKnown ? ((1 - cover) * left + cover * through) / light[channel]! : 1 - cover;
        shares[channel]![i] = share > 0 ? Math.min(share, 1) : 0; // also of no light at all
      }
    }
  };
}

const MIXED = 2;

/** For each four cells, by the first of them: 1 all background, 0 all subject, 2 to be looked at pixel by pixel. */
function plainPlaces({ columns, rows, depth, blur }: Outline, said: Float32Array | null): Uint8Array {
  const plain = new Uint8Array(columns * rows).fill(MIXED);
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      const four = [at, at + 1, at + columns, at + columns + 1];
      if (said && four.some((cell) => said[cell] !== 0)) continue;
      if (four.every((cell) => depth[cell]! <= -certainFrom(blur[cell]!))) plain[at] = 1;
      else if (four.every((cell) => depth[cell]! >= certainFrom(blur[cell]!))) plain[at] = 0;
    }
  }
  return plain;
}

/** Between which two columns of cells each pixel lies, and how far from the first to the second. */
function placesAcross(widthPx: number, columns: number) {
  const cell = new Int32Array(widthPx);
  const part = new Float64Array(widthPx);
  for (let i = 0; i < widthPx; i++) {
    const x = ((i + 0.5) / widthPx) * columns - 0.5;
    cell[i] = Math.min(Math.max(Math.floor(x), 0), Math.max(columns - 2, 0));
    part[i] = Math.min(Math.max(x - cell[i]!, 0), 1);
  }
  return { cell, part };
}

function certainFrom(blur: number): number {
  return Math.min(Math.max(LEAST_CERTAIN, CERTAIN_BLURS * blur), MOST_CERTAIN);
}

/** 0 up to {@link DOUBTFUL} of the way inside, 1 from its end on. */
function certainty(inward: number): number {
  const part = Math.min(Math.max((inward - DOUBTFUL) / (1 - DOUBTFUL), 0), 1);
  return part * part * (3 - 2 * part);
}
