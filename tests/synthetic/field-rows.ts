import { type FieldLattice, latticeOf, sixWeights } from './field-lattice.ts';
import type { KnownField } from './known-field.ts';

/** Fills interleaved RGB light of one pixel row at frame height `y`. */
export type FieldRow = (row: Float64Array, y: number) => void;

/**
 * Evaluates a field along pixel rows: from a lattice by cubic interpolation where that is exact to 1e-6 EV at 600
 * probes spread over the frame (a kink fails that), pixel by pixel otherwise.
 */
export function fieldRows(field: KnownField, widthPx: number, heightPx: number): FieldRow {
  const lattice = latticeOf(field, 0.5 * widthPx * heightPx);
  if (lattice) return latticeRows(lattice, widthPx);
  return (row, y) => {
    for (let column = 0, at = 0; column < widthPx; column++) {
      const [red, green, blue] = field((column + 0.5) / widthPx, y);
      row[at++] = red;
      row[at++] = green;
      row[at++] = blue;
    }
  };
}

function latticeRows({ steps, nodes }: FieldLattice, widthPx: number): FieldRow {
  const stride = (steps + 5) * 3;
  const first = new Int32Array(widthPx);
  const across = new Float64Array(widthPx * 6);
  for (let column = 0; column < widthPx; column++) {
    const position = ((column + 0.5) / widthPx) * steps;
    const node = Math.min(Math.floor(position), steps - 1);
    first[column] = node * 3;
    sixWeights(position - node, across, column * 6);
  }
  const down = new Float64Array(6);
  const blended = new Float64Array(stride);
  return (row, y) => {
    const position = y * steps;
    const node = Math.min(Math.floor(position), steps - 1);
    sixWeights(position - node, down);
    const [d0, d1, d2, d3, d4, d5] = down as unknown as number[];
    for (let i = 0, at = node * stride; i < stride; i++, at++) {
      blended[i] =
        d0! * nodes[at]! +
        d1! * nodes[at + stride]! +
        d2! * nodes[at + 2 * stride]! +
        d3! * nodes[at + 3 * stride]! +
        d4! * nodes[at + 4 * stride]! +
        d5! * nodes[at + 5 * stride]!;
    }
    for (let column = 0, at = 0, w = 0; column < widthPx; column++, w += 6) {
      const node3 = first[column]!;
      for (let channel = 0; channel < 3; channel++) {
        const i = node3 + channel;
        row[at++] =
          across[w]! * blended[i]! +
          across[w + 1]! * blended[i + 3]! +
          across[w + 2]! * blended[i + 6]! +
          across[w + 3]! * blended[i + 9]! +
          across[w + 4]! * blended[i + 12]! +
          across[w + 5]! * blended[i + 15]!;
      }
    }
  };
}
