/** One entry of a directory as a camera might write it; a list of entries makes a directory that it points to. */
export interface CameraEntry {
  readonly tag: number;
  readonly type: 'ascii' | 'short' | 'long' | 'rational' | 'undefined' | 'directory';
  readonly value: string | readonly number[] | Uint8Array | readonly CameraEntry[];
}

export interface CameraExif {
  readonly main: readonly CameraEntry[];
  /** A thumbnail's bytes, put into a second directory. */
  readonly thumbnail?: Uint8Array;
}

const NUMBER = { ascii: 2, short: 3, long: 4, rational: 5, undefined: 7, directory: 4 } as const;

/**
 * An Exif block written by hand in either byte order, values after all directories, so that what is under test is not
 * tried against a writer of its own kind.
 */
export function exifOfCamera(order: 'II' | 'MM', { main, thumbnail }: CameraExif): Uint8Array {
  const little = order === 'II';
  const block = Buffer.alloc(200_000);
  const put16 = (value: number, at: number) =>
    void (little ? block.writeUInt16LE(value, at) : block.writeUInt16BE(value, at));
  const put32 = (value: number, at: number) =>
    void (little ? block.writeUInt32LE(value, at) : block.writeUInt32BE(value, at));
  let next = 8;
  const take = (bytes: number) => {
    const at = next;
    next += bytes + (bytes % 2);
    return at;
  };
  const write = (entries: readonly CameraEntry[]): number => {
    const start = take(2 + 12 * entries.length + 4);
    put16(entries.length, start);
    entries.forEach(({ tag, type, value }, i) => {
      const at = start + 2 + 12 * i;
      put16(tag, at);
      put16(NUMBER[type], at + 2);
      if (type === 'directory') {
        put32(1, at + 4);
        put32(write(value as readonly CameraEntry[]), at + 8);
        return;
      }
      if (type === 'ascii' || type === 'undefined') {
        const bytes =
          type === 'ascii' ? Buffer.from(`${value as string}\0`, 'latin1') : (value as Uint8Array);
        put32(bytes.length, at + 4);
        const to = bytes.length <= 4 ? at + 8 : take(bytes.length);
        if (bytes.length > 4) put32(to, at + 8);
        block.set(bytes, to);
        return;
      }
      const numbers = value as readonly number[];
      const size = type === 'short' ? 2 : 4;
      put32(type === 'rational' ? numbers.length / 2 : numbers.length, at + 4);
      const to = numbers.length * size <= 4 ? at + 8 : take(numbers.length * size);
      if (numbers.length * size > 4) put32(to, at + 8);
      numbers.forEach((number, j) => {
        if (size === 2) put16(number, to + 2 * j);
        else put32(number, to + 4 * j);
      });
    });
    return start;
  };
  block.write(order, 0, 'latin1');
  put16(42, 2);
  put32(8, 4);
  write(main);
  if (thumbnail) {
    const at = take(thumbnail.length);
    block.set(thumbnail, at);
    const second: CameraEntry[] = [
      { tag: 259, type: 'short', value: [6] },
      { tag: 513, type: 'long', value: [at] },
      { tag: 514, type: 'long', value: [thumbnail.length] },
    ];
    put32(write(second), 8 + 2 + 12 * main.length);
  }
  return new Uint8Array(block.subarray(0, next));
}

/** What a camera says of one frame of the tumblers: all kinds of entries, position and a note of the maker's own. */
export function tumblerExif(
  order: 'II' | 'MM',
  {
    orientation = 6,
    thumbnail,
    makerNote,
    comment,
  }: { orientation?: number; thumbnail?: Uint8Array; makerNote?: Uint8Array; comment?: Uint8Array } = {},
): Uint8Array {
  const note: CameraEntry[] = makerNote ? [{ tag: 37500, type: 'undefined', value: makerNote }] : [];
  const main: CameraEntry[] = [
    { tag: 270, type: 'ascii', value: 'Smoke tumbler, 12 of 40' },
    { tag: 271, type: 'ascii', value: 'A Maker' },
    { tag: 272, type: 'ascii', value: 'Camera 5' },
    { tag: 274, type: 'short', value: [orientation] },
    { tag: 282, type: 'rational', value: [300, 1] },
    { tag: 283, type: 'rational', value: [300, 1] },
    { tag: 296, type: 'short', value: [2] },
    { tag: 306, type: 'ascii', value: '2026:03:01 10:20:30' },
    { tag: 315, type: 'ascii', value: 'The studio' },
    { tag: 33432, type: 'ascii', value: 'The glass works' },
    {
      tag: 34665,
      type: 'directory',
      value: [
        { tag: 33434, type: 'rational', value: [1, 125] },
        { tag: 33437, type: 'rational', value: [80, 10] },
        { tag: 34855, type: 'short', value: [100] },
        { tag: 36864, type: 'undefined', value: Buffer.from('0232') },
        { tag: 36867, type: 'ascii', value: '2026:03:01 10:20:30' },
        { tag: 37386, type: 'rational', value: [850, 10] },
        ...note,
        ...(comment ? [{ tag: 37510, type: 'undefined', value: comment } as const] : []),
        { tag: 40961, type: 'short', value: [1] },
        { tag: 40965, type: 'directory', value: [{ tag: 1, type: 'ascii', value: 'R98' }] },
        { tag: 42034, type: 'rational', value: [85, 1, 85, 1, 18, 10, 18, 10] },
        { tag: 42036, type: 'ascii', value: 'A lens of 85 mm' },
      ],
    },
    {
      tag: 34853,
      type: 'directory',
      value: [
        { tag: 1, type: 'ascii', value: 'N' },
        { tag: 2, type: 'rational', value: [47, 1, 30, 1, 0, 1] },
        { tag: 3, type: 'ascii', value: 'E' },
        { tag: 4, type: 'rational', value: [8, 1, 15, 1, 0, 1] },
      ],
    },
  ];
  return exifOfCamera(order, { main, ...(thumbnail ? { thumbnail } : {}) });
}
