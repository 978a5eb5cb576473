/**
 * Linear light of every code, 2^bitsPerSample of them, by any decoding from code to light on 0 to 1. The white code
 * gets exactly 1: a profile's rounded curve may end a little beside it, and not alike in three channels.
 */
export function lightTable(bitsPerSample: 8 | 16, decode: (code: number) => number): Float64Array {
  const codes = 1 << bitsPerSample;
  const white = decode(1);
  const light = new Float64Array(codes);
  for (let code = 0; code < codes; code++) light[code] = decode(code / (codes - 1)) / white;
  return light;
}

/** Whether a table is linear to within half a step of 16 bits: such light needs no curve undone. */
export function isLinearTable(light: Float64Array): boolean {
  const last = light.length - 1;
  return light.every((value, code) => Math.abs(value - code / last) <= 0.5 / 65535);
}
