/** One entry of a directory: TIFF type 2 ASCII, 3 SHORT, 4 LONG, 5 RATIONAL (numbers in pairs). */
export interface TiffEntry {
  readonly tag: number;
  readonly type: 2 | 3 | 4 | 5;
  readonly value: string | readonly number[];
}

/** A TIFF block by hand, of two directories, in either byte order; the second one is Exif's where it has entries. */
export function tiffBlock(
  order: 'II' | 'MM',
  main: readonly TiffEntry[],
  exif: readonly TiffEntry[],
): Uint8Array {
  const little = order === 'II';
  const bytes = new Uint8Array(2048);
  const view = new DataView(bytes.buffer);
  bytes.set(Buffer.from(order, 'latin1'));
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  const exifAt = 8 + 2 + 12 * (main.length + 1) + 4;
  let spareAt = 1024;
  const write = (start: number, entries: readonly TiffEntry[]) => {
    view.setUint16(start, entries.length, little);
    entries.forEach(({ tag, type, value }, index) => {
      const at = start + 2 + 12 * index;
      const size = type === 2 ? 1 : type === 3 ? 2 : 4;
      const stored = typeof value === 'string' ? [...Buffer.from(`${value}\0`, 'latin1')] : value;
      view.setUint16(at, tag, little);
      view.setUint16(at + 2, type, little);
      view.setUint32(at + 4, type === 5 ? stored.length / 2 : stored.length, little);
      const fits = stored.length * size <= 4;
      if (!fits) view.setUint32(at + 8, spareAt, little);
      const target = fits ? at + 8 : spareAt;
      stored.forEach((number, i) => {
        if (size === 1) view.setUint8(target + i, number);
        else if (size === 2) view.setUint16(target + 2 * i, number, little);
        else view.setUint32(target + 4 * i, number, little);
      });
      if (!fits) spareAt += stored.length * size + (stored.length % 2);
    });
  };
  write(8, [...main, { tag: 34665, type: 4, value: [exifAt] }]);
  write(exifAt, exif);
  return bytes.subarray(0, spareAt);
}
