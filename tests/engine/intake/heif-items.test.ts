import { expect, test } from 'vitest';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { readHeifItems } from '../../../src/engine/intake/heif-items.ts';
import { nodePlatform } from '../../node-platform.ts';
import { box } from './avif-with-property.ts';
import { rejectionOf } from './rejection-code.ts';

const two = (value: number) => [value >> 8, value & 255];

/** A still-picture file of one item whose place in the file is told by hand. */
function fileWith(iloc: readonly number[]): Uint8Array {
  const meta = [
    ...[0, 0, 0, 0],
    ...box('pitm', [0, 0, 0, 0, 0, 1]),
    ...box('iinf', [0, 0, 0, 0, 0, 0]),
    ...box('iprp', [...box('ipco', [])]),
    ...box('iloc', iloc),
  ];
  const brand = [...Buffer.from('avif\0\0\0\0avif', 'latin1')];
  return new Uint8Array(Buffer.concat([box('ftyp', brand), box('meta', meta)]));
}

/** Version 0, offsets and lengths of 4 bytes, no base. */
const placed = (pieces: readonly (readonly [from: number, length: number])[]) =>
  fileWith([
    ...[0, 0, 0, 0, 0x44, 0x00, 0, 1],
    ...[0, 1, 0, 0, ...two(pieces.length)],
    ...pieces.flatMap(([from, length]) => [0, 0, ...two(from), 0, 0, ...two(length)]),
  ]);

test('readHeifItems joins the pieces of an item', () => {
  const file = placed([
    [4, 4],
    [8, 4],
  ]);
  expect(readHeifItems(file)!.data(1)).toEqual(file.slice(4, 12));
  expect(readHeifItems(placed([[4, 4000]]))!.data(1)).toBeNull(); // beyond its end
});

test('readHeifItems makes no more of a file than there is, however often its pieces name a part', () => {
  const whole = placed([[0, 0]]).length;
  expect(readHeifItems(placed(Array.from({ length: 500 }, () => [0, whole] as const)))!.data(1)).toBeNull();
});

test('a list of items that claims millions of pieces in no bytes is refused within moments', async () => {
  // offsets and lengths of no bytes at all: each item takes six, and names 65535 pieces
  const items = Array.from({ length: 4000 }, (_, i) => [...two(i + 1), 0, 0, 0xff, 0xff]).flat();
  const file = fileWith([0, 0, 0, 0, 0, 0, ...two(4000), ...items]);
  const begun = performance.now();
  const error = await rejectionOf(file);
  const ms = performance.now() - begun;
  console.log(
    `measured: ${file.length} bytes that claim 262 million pieces: refused after ${ms.toFixed(0)} ms`,
  );
  expect([error.code, error.message]).toEqual([
    'unreadable-file',
    expect.stringContaining('lie in more than 8192 pieces'),
  ]);
  expect(ms).toBeLessThan(500);
  await expect(decodeImage(file, nodePlatform)).rejects.toMatchObject({ code: 'unreadable-file' });
});
