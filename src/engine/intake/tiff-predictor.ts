/**
 * Undoes the differences along each row, in place: every sample was stored less the one before it of its channel, in
 * whatever width its array has. Source: TIFF 6.0, section 14.
 */
export function addUpRows(
  samples: Uint8Array | Uint16Array | Uint32Array,
  rowSamples: number,
  channels: number,
): void {
  for (let row = 0; row < samples.length; row += rowSamples) {
    const end = row + rowSamples;
    for (let i = row + channels; i < end; i++) samples[i] = samples[i]! + samples[i - channels]!;
  }
}

/**
 * Undoes the floating-point predictor: a row's bytes are sorted by their rank, highest first whatever the file's byte
 * order, and stored as differences. Returns little-endian numbers. Source: TIFF technical note 3 (2005).
 */
export function addUpFloatRows(
  bytes: Uint8Array<ArrayBuffer>,
  rowBytes: number,
  channels: number,
  size: number,
): Uint8Array<ArrayBuffer> {
  addUpRows(bytes, rowBytes, channels);
  const sorted = new Uint8Array(bytes.length);
  const rowSamples = rowBytes / size;
  for (let row = 0; row < bytes.length; row += rowBytes)
    for (let rank = 0; rank < size; rank++)
      for (
        let i = 0, from = row + rank * rowSamples, to = row + size - 1 - rank;
        i < rowSamples;
        i++, to += size
      )
        sorted[to] = bytes[from + i]!;
  return sorted;
}
