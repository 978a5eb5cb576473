import { describe, expect, test } from 'vitest';
import { embeddedPreview } from '../../../src/engine/intake/embedded-preview.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** Start, a frame header of the kind named, end: as much of a JPEG as is looked at. */
function jpeg(bytes: number, kind = 0xc0): Uint8Array {
  const made = new Uint8Array(bytes);
  made.set([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0, 0xff, kind, 0, 4, 0, 0]);
  return made;
}

type Entry = readonly [tag: number, value: number];

/** A little-endian TIFF of directories in a chain, each with its entries as longs; what they point at stands behind. */
function block(
  directories: readonly (readonly Entry[])[],
  parts: ReadonlyMap<number, Uint8Array>,
  bytes = 8192,
) {
  const made = new Uint8Array(bytes);
  const view = new DataView(made.buffer);
  made.set([0x49, 0x49, 42, 0, 8, 0, 0, 0]);
  let at = 8;
  directories.forEach((entries, i) => {
    view.setUint16(at, entries.length, true);
    entries.forEach(([tag, value], k) => {
      const entry = at + 2 + k * 12;
      view.setUint16(entry, tag, true);
      view.setUint16(entry + 2, 4, true);
      view.setUint32(entry + 4, 1, true);
      view.setUint32(entry + 8, value, true);
    });
    const next = at + 2 + entries.length * 12;
    view.setUint32(next, i + 1 < directories.length ? next + 4 : 0, true);
    at = next + 4;
  });
  for (const [place, part] of parts) made.set(part, place);
  return made;
}

const AT = 1024;

describe('the preview in a raw file is found', () => {
  test('by the tags of a thumbnail, in the second directory', () => {
    const made = block(
      [
        [[259, 1]],
        [
          [513, AT],
          [514, 200],
        ],
      ],
      new Map([[AT, jpeg(200)]]),
    );
    expect(embeddedPreview(made)).toHaveLength(200);
  });

  test('as one strip of JPEG data, and in a directory inside another', () => {
    const strip = block(
      [
        [
          [259, 7],
          [273, AT],
          [279, 300],
        ],
      ],
      new Map([[AT, jpeg(300)]]),
    );
    expect(embeddedPreview(strip)).toHaveLength(300);
    const inner = block(
      [[[330, 512]]],
      new Map([
        [AT, jpeg(250)],
        [
          512,
          block(
            [
              [
                [513, AT],
                [514, 250],
              ],
            ],
            new Map(),
          ).subarray(8, 60),
        ],
      ]),
    );
    expect(embeddedPreview(inner)).toHaveLength(250);
  });

  test('the largest of several', () => {
    const made = block(
      [
        [
          [513, AT],
          [514, 100],
        ],
        [
          [513, 2048],
          [514, 400],
        ],
      ],
      new Map([
        [AT, jpeg(100)],
        [2048, jpeg(400)],
      ]),
    );
    expect(embeddedPreview(made)).toHaveLength(400);
  });
});

describe('no preview', () => {
  test.each([
    ['where there is none', block([[[256, 100]]], new Map())],
    [
      'where it is no JPEG',
      block(
        [
          [
            [513, AT],
            [514, 100],
          ],
        ],
        new Map(),
      ),
    ],
    [
      'where a sensor’s data are coded as a JPEG without loss',
      block(
        [
          [
            [259, 7],
            [273, AT],
            [279, 300],
          ],
        ],
        new Map([[AT, jpeg(300, 0xc3)]]),
      ),
    ],
    [
      'where it lies beyond the file',
      block(
        [
          [
            [513, 8000],
            [514, 4000],
          ],
        ],
        new Map([[8000, jpeg(100)]]),
      ),
    ],
    [
      'where the strip holds plain samples',
      block(
        [
          [
            [259, 1],
            [273, AT],
            [279, 300],
          ],
        ],
        new Map([[AT, jpeg(300)]]),
      ),
    ],
    ['in a directory that points at itself', block([[[330, 8]]], new Map())],
    ['in nothing', new Uint8Array(0)],
    ['in something else', new TextEncoder().encode('II but no TIFF')],
  ])('%s', (_, made) => {
    expect(embeddedPreview(made)).toBeNull();
  });
});

test('bytes at random never throw, nor take long', () => {
  const random = seededRandom(11);
  const began = performance.now();
  for (let i = 0; i < 3000; i++) {
    const made = block(
      [
        [
          [259, 7],
          [273, AT],
          [279, 300],
        ],
        [
          [330, 512],
          [513, AT],
          [514, 200],
        ],
      ],
      new Map([[AT, jpeg(300)]]),
      4096,
    );
    for (let k = 0; k < 6; k++) made[Math.floor(random.uniform() * 120)] = Math.floor(random.uniform() * 256);
    const found = embeddedPreview(made);
    expect(found === null || found.length <= 4096).toBe(true);
  }
  expect(performance.now() - began).toBeLessThan(10_000);
});
