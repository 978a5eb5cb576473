import type { ProfileTables } from '../intake/platform.ts';

/** Colours that are remembered; a blank background in 8 bits has some tens of thousands, noise and all. */
const MOST_COLOURS = 1 << 19;
/** Twice as many places, so that a free one is found within a few steps. */
const PLACES = 2 * MOST_COLOURS;

/**
 * Takes 8-bit codes (spread over 16 bits) to XYZ as the tables do, but each colour once only: a picture has far fewer
 * than pixels. Beyond {@link MOST_COLOURS} every pixel is asked for anew.
 */
export function eachColourOnce(tables: ProfileTables): ProfileTables['toXyz'] {
  const colourAt = new Uint32Array(PLACES); // the colour and 1, so that 0 is a free place
  const numberAt = new Int32Array(PLACES);
  const known = new Float32Array(3 * MOST_COLOURS);
  let colours = 0;
  return (codes) => {
    const pixels = codes.length / 3;
    if (colours + pixels > MOST_COLOURS) return tables.toXyz(codes);
    const numbers = new Int32Array(pixels);
    const fresh = new Uint16Array(codes.length);
    let freshLength = 0;
    const first = colours;
    for (let i = 0, at = 0; i < pixels; i++, at += 3) {
      const colour =
        (((codes[at]! & 255) << 16) | ((codes[at + 1]! & 255) << 8) | (codes[at + 2]! & 255)) + 1;
      let place = (Math.imul(colour, 0x9e3779b1) >>> 0) % PLACES; // 2^32 over the golden ratio: neighbours far apart
      while (colourAt[place] !== 0 && colourAt[place] !== colour) place = (place + 1) % PLACES;
      if (colourAt[place] === 0) {
        colourAt[place] = colour;
        numberAt[place] = colours++;
        for (let c = 0; c < 3; c++) fresh[freshLength++] = codes[at + c]!;
      }
      numbers[i] = numberAt[place]!;
    }
    if (freshLength > 0) known.set(tables.toXyz(fresh.subarray(0, freshLength)), 3 * first);
    const xyz = new Float32Array(codes.length);
    for (let i = 0, to = 0; i < pixels; i++) {
      const from = 3 * numbers[i]!;
      xyz[to++] = known[from]!;
      xyz[to++] = known[from + 1]!;
      xyz[to++] = known[from + 2]!;
    }
    return xyz;
  };
}
