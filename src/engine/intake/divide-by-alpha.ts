/**
 * Divides colours that were stored multiplied by alpha, in place; clear pixels hold none and are left as they are.
 * Returns whether any pixel was not opaque.
 */
export function divideByAlpha(
  samples: Uint8Array | Uint16Array,
  channels: number,
  bitsPerSample: 8 | 16,
): boolean {
  const opaque = 2 ** bitsPerSample - 1;
  let any = false;
  for (let at = 0; at < samples.length; at += channels) {
    const alpha = samples[at + channels - 1]!;
    if (alpha === opaque) continue;
    any = true;
    if (alpha === 0) continue;
    for (let c = 0; c < channels - 1; c++)
      samples[at + c] = Math.min(opaque, Math.round((samples[at + c]! * opaque) / alpha));
  }
  return any;
}
