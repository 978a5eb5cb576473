/**
 * Codes by light, the inverse of a table from code to light: nodes so many to each halving of light, from 1 down, as
 * the bits of a single-precision number count them. Between nodes the code runs straight.
 */
export interface CodeFinder {
  readonly topCode: number;
  readonly codeAtNode: Float64Array;
}

/** Halvings of light below white; what lies beneath is black in any coding of 16 bits. */
const HALVINGS = 36;
/** Nodes to a halving as a power of two: the code of any usual curve is then right to some thousandths. */
const NODE_BITS = 10;
const SHIFT = 23 - NODE_BITS;
const REST = (1 << SHIFT) - 1;
const PER_REST = 1 / (1 << SHIFT);
const FIRST_NODE = (127 - HALVINGS) << NODE_BITS;
const DARKEST = 2 ** -HALVINGS;

const single = new Float32Array(1);
const bitsOfSingle = new Int32Array(single.buffer);

export function codeFinder(lightAtCode: Float64Array): CodeFinder {
  const topCode = lightAtCode.length - 1;
  const codeAtNode = new Float64Array((HALVINGS << NODE_BITS) + 2); // light a hair below white rounds to it
  let code = 0;
  for (let node = 0; node < codeAtNode.length; node++) {
    const part = node & ((1 << NODE_BITS) - 1);
    const light = 2 ** ((node >> NODE_BITS) - HALVINGS) * (1 + part / (1 << NODE_BITS));
    // a damaged curve may fall somewhere: what is passed by is not turned back to
    while (code < topCode - 1 && lightAtCode[code + 1]! <= light) code++;
    const step = lightAtCode[code + 1]! - lightAtCode[code]!;
    const beyond = step > 0 ? (light - lightAtCode[code]!) / step : 0;
    codeAtNode[node] = code + Math.min(Math.max(beyond, 0), 1); // a curve may begin above black
  }
  return { topCode, codeAtNode };
}

/** The code of a light, between codes by how far the light is between theirs; 0 to the top code, 0 for NaN. */
export function codeOfLight({ topCode, codeAtNode }: CodeFinder, light: number): number {
  if (light >= 1) return topCode;
  if (!(light > DARKEST)) return 0;
  single[0] = light;
  const bits = bitsOfSingle[0]!;
  const node = (bits >> SHIFT) - FIRST_NODE;
  const from = codeAtNode[node]!;
  return from + (codeAtNode[node + 1]! - from) * ((bits & REST) * PER_REST);
}
