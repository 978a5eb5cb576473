/**
 * The most that a take takes on the shelf beside its file, by the depth of that: its cells, and of a file of 16 bits the
 * light of each of its codes. Measured of full grids, with what the database itself takes; see the test.
 */
const BYTES = 1_300_000;
const BYTES_OF_CODES = 1_600_000;

export function takeBytes(bitsPerSample: number): number {
  return bitsPerSample > 8 ? BYTES + BYTES_OF_CODES : BYTES;
}
