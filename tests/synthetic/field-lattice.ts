import type { KnownField } from './known-field.ts';

/** A field sampled on equal steps over the frame and two nodes beyond, interleaved RGB. */
export interface FieldLattice {
  readonly steps: number;
  readonly nodes: Float64Array;
}

/** Which lattices are tried, coarsest first, and how well one has to give the field back at every probe. */
export interface LatticeChoice {
  readonly steps: readonly number[];
  readonly errorEv: number;
}

const EXACT: LatticeChoice = { steps: [96, 192, 320], errorEv: 1e-6 };
const PROBES = 600;

/**
 * The coarsest of a few lattices that gives the field back, to 1e-6 EV unless chosen otherwise, at 600 probes spread over the frame; `null`
 * where none does (a kink never does) or none has fewer nodes than `mostNodes`.
 */
export function latticeOf(field: KnownField, mostNodes: number, choice = EXACT): FieldLattice | null {
  for (const steps of choice.steps) {
    if ((steps + 5) ** 2 > mostNodes) return null;
    const lattice = { steps, nodes: sampled(field, steps) };
    if (matches(field, lattice, choice.errorEv)) return lattice;
  }
  return null;
}

/** The same field, read from a lattice where one is exact enough: for fields that are dear, as sums over rays are. */
export function quickened(field: KnownField, choice = EXACT): KnownField {
  const lattice = latticeOf(field, Number.POSITIVE_INFINITY, choice);
  if (!lattice) return field;
  return (x, y) => interpolated(lattice, x, y);
}

/** Nodes from −2/steps to 1 + 2/steps, so that all six neighbours of any position exist. */
function sampled(field: KnownField, steps: number): Float64Array {
  const across = steps + 5;
  const lattice = new Float64Array(across * across * 3);
  for (let row = 0, at = 0; row < across; row++) {
    for (let column = 0; column < across; column++) {
      const [red, green, blue] = field((column - 2) / steps, (row - 2) / steps);
      lattice[at++] = red;
      lattice[at++] = green;
      lattice[at++] = blue;
    }
  }
  return lattice;
}

/** Lagrange weights of six equally spaced nodes at −2 … 3 for a position 0 to 1 past the third. */
export function sixWeights(t: number, weights: Float64Array, at = 0): void {
  const [a, b, c, d, e, f] = [t + 2, t + 1, t, t - 1, t - 2, t - 3];
  weights[at] = (-b * c * d * e * f) / 120;
  weights[at + 1] = (a * c * d * e * f) / 24;
  weights[at + 2] = (-a * b * d * e * f) / 12;
  weights[at + 3] = (a * b * c * e * f) / 12;
  weights[at + 4] = (-a * b * c * d * f) / 24;
  weights[at + 5] = (a * b * c * d * e) / 120;
}

function matches(field: KnownField, lattice: FieldLattice, errorEv: number): boolean {
  for (let probe = 1; probe <= PROBES; probe++) {
    // R₂ sequence: even cover of the frame without a random source
    const x = (probe * 0.7548776662466927) % 1;
    const y = (probe * 0.5698402909980532) % 1;
    const read = interpolated(lattice, x, y);
    const light = field(x, y);
    for (let channel = 0; channel < 3; channel++) {
      const error = Math.abs(read[channel]! - light[channel]!);
      if (!(error <= errorEv * Math.LN2 * Math.abs(light[channel]!))) return false;
    }
  }
  return true;
}

const across = new Float64Array(6);
const down = new Float64Array(6);

function interpolated({ steps, nodes }: FieldLattice, x: number, y: number): [number, number, number] {
  const stride = (steps + 5) * 3;
  const column = Math.min(Math.floor(x * steps), steps - 1);
  const row = Math.min(Math.floor(y * steps), steps - 1);
  sixWeights(x * steps - column, across);
  sixWeights(y * steps - row, down);
  let [red, green, blue] = [0, 0, 0];
  for (let j = 0; j < 6; j++) {
    for (let i = 0, at = (row + j) * stride + column * 3; i < 6; i++) {
      const weight = down[j]! * across[i]!;
      red += weight * nodes[at++]!;
      green += weight * nodes[at++]!;
      blue += weight * nodes[at++]!;
    }
  }
  return [red, green, blue];
}
