import { expect, test } from 'vitest';
import { exifToWrite } from '../../../src/engine/export/exif-to-write.ts';
import { exifBlockOf, exifTree } from '../../../src/engine/export/exif-tree.ts';
import { writeTiff } from '../../../src/engine/export/write-tiff.ts';
import { readExif } from '../../../src/engine/intake/read-exif.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { exifOfCamera, tumblerExif } from './exif-of-camera.ts';
import { decoded, exifFacts, picture, wholeFile } from './read-back.ts';

for (const order of ['II', 'MM'] as const)
  test(`exifBlockOf(exifTree(block)) says the same again, in its own order, ${order}`, async () => {
    const block = tumblerExif(order);
    const again = exifBlockOf(exifTree(block)!);
    expect(String.fromCharCode(again[0]!, again[1]!)).toBe(order);
    expect(await exifFacts(again)).toEqual(await exifFacts(block));
    expect(exifBlockOf(exifTree(again)!)).toEqual(again);
  });

test('exifTree(block) leaves behind what describes another file’s storage', async () => {
  const block = exifOfCamera('II', {
    main: [
      { tag: 256, type: 'long', value: [9999] },
      { tag: 259, type: 'short', value: [6] },
      { tag: 271, type: 'ascii', value: 'A Maker' },
      { tag: 273, type: 'long', value: [8] },
      { tag: 330, type: 'long', value: [8] },
    ],
  });
  const file = wholeFile(writeTiff(picture({ exif: block })));
  expect((await decoded(file)).metadata).toMatchObject({ width: 150, height: 90 });
  expect(await exifFacts(file)).toMatchObject({ Make: 'A Maker', ImageWidth: 150, Compression: 1 });
});

test('exifTree(block) takes no editor’s previews and layers along', () => {
  const editors = [34377, 37724].map(
    (tag) => ({ tag, type: 'undefined', value: new Uint8Array(90) }) as const,
  );
  const block = exifOfCamera('II', { main: [{ tag: 271, type: 'ascii', value: 'A Maker' }, ...editors] });
  expect(exifTree(block)!.main.map(({ tag }) => tag)).toEqual([271]);
});

test('exifTree(file) keeps a maker’s note at its place, but not one behind a whole picture', () => {
  const block = tumblerExif('II', { makerNote: new Uint8Array(300).fill(0x4e) });
  expect(exifTree(block)!.makerNote?.bytes.length).toBe(300);
  const file = new Uint8Array(3 << 20);
  file.set(block);
  const { at } = exifTree(block)!.makerNote!;
  const view = new DataView(file.buffer);
  let moved = 0;
  for (let entry = 0; entry + 4 <= block.length; entry++)
    if (view.getUint32(entry, true) === at && view.getUint16(entry - 8, true) === 37500) {
      view.setUint32(entry, 2 << 20, true);
      moved++;
    }
  expect(moved).toBe(1);
  expect(exifTree(file)).toMatchObject({ makerNote: null });
  expect(exifBlockOf(exifTree(file)!).length).toBeLessThan(block.length);
});

test('exifToWrite(picture) answers damaged blocks with blocks no larger, which can be read again', async () => {
  const { uniform } = seededRandom(9);
  const makerNote = new Uint8Array(300).fill(0x4e);
  let slowestMs = 0;
  for (let round = 0; round < 600; round++) {
    const block = tumblerExif(round % 2 ? 'II' : 'MM', { makerNote });
    for (let hit = 0; hit < 1 + (round % 6); hit++)
      block[8 + Math.floor(uniform() * (block.length - 8))] = Math.floor(uniform() * 256);
    const began = performance.now();
    const written = exifToWrite(picture({ exif: block, orientation: 3 }))!;
    const tiff = writeTiff(picture({ exif: block, orientation: 3 }));
    slowestMs = Math.max(slowestMs, performance.now() - began);
    expect(written.length).toBeLessThan(2 * block.length + 200);
    expect(tiff[0]!.length).toBeLessThan(2 * block.length + 1000);
    expect(readExif(written).orientation).toBe(3);
    if (round % 40 === 0) expect((await decoded(wholeFile(tiff))).metadata.orientation).toBe(3);
  }
  console.log(`measured: slowest of 600 damaged Exif blocks ${slowestMs.toFixed(1)} ms`);
});

test('exifTree(block) makes no more of a block than it holds, where entries overlap', () => {
  const large = new Uint8Array(100_000);
  const block = exifOfCamera('II', { main: [{ tag: 40094, type: 'undefined', value: large }] });
  // the same value a thousand times, under tags of its own
  const hostile = new Uint8Array(block.length + 12 * 1000);
  hostile.set(block.subarray(0, 8));
  const view = new DataView(hostile.buffer);
  view.setUint16(8, 1000, true);
  for (let i = 0; i < 1000; i++) {
    view.setUint16(10 + 12 * i, 50000 + i, true);
    view.setUint16(12 + 12 * i, 7, true);
    view.setUint32(14 + 12 * i, large.length, true);
    view.setUint32(18 + 12 * i, 20, true);
  }
  expect(exifBlockOf(exifTree(hostile)!).length).toBeLessThan(2 * hostile.length);
});
