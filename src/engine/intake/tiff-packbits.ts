/**
 * Undoes PackBits into `out` and returns how many bytes it held, at most `out.length`.
 * Source: TIFF 6.0, section 9.
 */
export function undoPackBits(packed: Uint8Array, out: Uint8Array): number {
  let from = 0;
  let to = 0;
  while (from < packed.length && to < out.length) {
    const lead = packed[from++]!;
    if (lead < 128) {
      const run = packed.subarray(from, Math.min(from + lead + 1, from + out.length - to));
      out.set(run, to);
      to += run.length;
      from += lead + 1;
    } else if (lead > 128 && from < packed.length) {
      const end = Math.min(out.length, to + 257 - lead);
      out.fill(packed[from++]!, to, end);
      to = end;
    }
  }
  return to;
}
