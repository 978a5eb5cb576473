import { gunzipSync, gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import {
  JOB_LIMITS,
  type JobLimits,
  type JobOpeners,
  JobRefusal,
  looksLikeJob,
  readJob,
  writeJob,
} from '../../src/takes/job-file.ts';

/** Refusals as their reason; anything else that is thrown fails the test. */
async function opened(file: Blob, older?: JobOpeners, limits?: JobLimits): Promise<unknown> {
  try {
    const parts: unknown[] = [];
    for await (const part of await readJob(file, undefined, older, limits)) parts.push(part);
    return parts;
  } catch (error) {
    if (error instanceof JobRefusal)
      return error.schema === null ? error.reason : `${error.reason} ${error.schema}`;
    throw error;
  }
}

const bytesOf = async (file: Blob) => new Uint8Array(await file.arrayBuffer());
const textOf = async (file: Blob) => gunzipSync(await bytesOf(file)).toString('utf8');
const packed = (text: string) => new Blob([gzipSync(text)]);

/** What comes of work, and by how many MB buffers grew meanwhile. */
async function grownBy<Result>(work: () => Promise<Result>): Promise<[Result, number]> {
  const held = () => process.memoryUsage().arrayBuffers / 2 ** 20;
  const before = held();
  let most = before;
  const watch = setInterval(() => {
    most = Math.max(most, held());
  });
  const result = await work();
  clearInterval(watch);
  return [result, Math.max(most, held()) - before];
}

const everything = [
  { plain: [1, 'zwei', true, null, { deep: [] }], 'a key': 'ü – 🥛\u2028\n' },
  [Number.NaN, -0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, undefined, 12345678901234567890n],
  Float64Array.of(Number.NaN, -0, 5e-324, 1 / 3, Number.MAX_VALUE),
  { $: 'NaN', __proto__x: 1, is: { $: { $: 2 } } },
  JSON.parse('{"__proto__": {"polluted": true}, "constructor": 1}'),
  new Map<unknown, unknown>([
    ['a', new Set([1, -0, 'b'])],
    [Number.NaN, new Date(0)],
  ]),
  { bytes: new Uint8ClampedArray([0, 255]), none: new Float32Array(0), big: new BigInt64Array([-1n]) },
  new Float64Array([9, 8, 7, 6]).subarray(1, 3), // a view of a longer buffer
];

test('whatever is written comes back as it was: NaN, −0, typed arrays and odd keys too', async () => {
  const back = await opened(await writeJob(everything));
  expect(back).toStrictEqual(everything);
  const [, numbers, array] = back as [unknown, number[], Float64Array];
  expect(Object.is(numbers[1], -0)).toBe(true);
  expect(Object.is(array[1], -0)).toBe(true);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  expect(await opened(await writeJob([]))).toEqual([]);
});

test('bits of typed arrays come back exactly, a NaN’s own too', async () => {
  const bits = new BigUint64Array([0x7ff8_0000_dead_beefn, 0x8000_0000_0000_0000n]);
  const [back] = (await opened(await writeJob([new Float64Array(bits.buffer)]))) as [Float64Array];
  expect(new BigUint64Array(back.buffer)).toEqual(bits);
});

test('a small picture comes back with its type', async () => {
  const picture = new Blob([new Uint8Array(100_000).map((_, i) => i * 7)], { type: 'image/webp' });
  const [back] = (await opened(await writeJob([{ picture }]))) as [{ picture: Blob }];
  expect(back.picture.type).toBe('image/webp');
  expect(Buffer.compare(await bytesOf(back.picture), await bytesOf(picture))).toBe(0);
});

test('drawn structures of every kind come back as they were', async () => {
  const random = seededRandom(20);
  const below = (n: number) => Math.floor(random.uniform() * n);
  const leaves: (() => unknown)[] = [
    () => random.normal() * 10 ** (below(40) - 20),
    () => [Number.NaN, -0, undefined, null, Number.NEGATIVE_INFINITY][below(5)],
    () => String.fromCodePoint(...Array.from({ length: below(9) }, () => below(0xd800))),
    () => Float64Array.from({ length: below(50) }, () => (below(9) === 0 ? Number.NaN : random.normal())),
    () => Uint8Array.from({ length: below(50) }, () => below(256)),
    () => Int16Array.from({ length: below(9) }, () => below(65536)),
    () => random.uniform() < 0.5,
  ];
  const key = () => ['$', 'is', 'length', 'base64', '__proto__', 'ev', 'a b', ''][below(8)]!;
  const drawn = (depth: number): unknown => {
    const kind = depth === 0 ? 2 : below(4);
    const inside = () => Array.from({ length: below(5) }, () => drawn(depth - 1));
    if (kind === 0) return inside();
    if (kind === 1) return Object.fromEntries(inside().map((each) => [key(), each]));
    if (kind === 3 && below(3) === 0) return new Map(inside().map((each, i) => [i, each]));
    return leaves[below(leaves.length)]!();
  };
  for (let i = 0; i < 300; i++) {
    const parts = Array.from({ length: below(4) }, () => drawn(5));
    expect(await opened(await writeJob(parts))).toStrictEqual(parts);
  }
});

test('what is no data is not written', async () => {
  for (const odd of [() => 1, Symbol('a'), new URL('http://a.test'), new DataView(new ArrayBuffer(1))])
    await expect(writeJob([{ odd }])).rejects.toThrow(TypeError);
});

test('anyone can read it: each line is JSON, arrays are base64 of little-endian numbers', async () => {
  const text = await textOf(await writeJob([{ takes: Float64Array.of(1, -2) }]));
  const [header, line, end] = text.split('\n');
  expect(JSON.parse(header!)).toMatchObject({
    schema: 'evenfield.job/1',
    lines: 1,
    bytes: Buffer.byteLength(line!) + 1,
  });
  expect(JSON.parse(line!)).toEqual({
    takes: {
      $: 'Float64Array',
      length: 2,
      base64: Buffer.from(Float64Array.of(1, -2).buffer).toString('base64'),
    },
  });
  expect(end).toBe('');
});

test('every cut and every flipped bit is refused, or changes nothing', async () => {
  const parts = [
    { name: 'tumblers', map: Float64Array.from({ length: 40 }, (_, i) => Math.sqrt(i)) },
    { more: 'ö' },
  ];
  const whole = await bytesOf(await writeJob(parts));
  const random = seededRandom(3);
  const counts = { refused: 0, equal: 0 };
  const hold = async (bytes: Uint8Array<ArrayBuffer>) => {
    const found = await opened(new Blob([bytes]));
    if (typeof found === 'string') counts.refused++;
    else {
      expect(found).toStrictEqual(parts);
      counts.equal++;
    }
  };
  for (let length = 0; length < whole.length; length++) await hold(whole.slice(0, length));
  expect(counts.equal).toBe(0); // no cut is let pass
  for (let at = 0; at < whole.length; at++) {
    const bent = whole.slice();
    bent[at]! ^= 1 << (random.uniform() * 8);
    await hold(bent);
  }
  // in what is packed, so that gzip's own checksum is right
  const text = Buffer.from(gunzipSync(whole));
  for (let at = 0; at < text.length; at++) {
    const bent = Buffer.from(text);
    bent[at]! ^= 1 << (random.uniform() * 8);
    await hold(new Uint8Array(gzipSync(bent, { level: 1 })));
  }
  console.log(
    `measured: of ${counts.refused + counts.equal} damaged jobs ${counts.refused} were refused; the rest read as written`,
  );
  expect(counts.refused).toBeGreaterThan(2 * whole.length);
});

test('more after the end, or less than was told, is damage', async () => {
  const file = await writeJob([{ a: 1 }, { b: 2 }]);
  expect(await opened(new Blob([file, 'x']))).toBe('damaged');
  const text = await textOf(file);
  expect(await opened(packed(`${text}{"c":3}\n`))).toBe('damaged');
  expect(await opened(packed(text.replace('"lines":2', '"lines":1')))).toBe('damaged');
  expect(await opened(packed(text.replace('"lines":2', '"lines":3')))).toBe('damaged');
  expect(await opened(packed(text.replace(/"sha256":"./, '"sha256":"g')))).toBe('damaged');
  expect(await opened(packed(text.trimEnd()))).toBe('damaged');
});

test('arrays whose lengths do not agree are damage, even where every checksum is right', async () => {
  const signed = async (line: string) => {
    const body = `${line}\n`;
    const digest = await crypto.subtle.digest('SHA-256', Buffer.from(body));
    const sha256 = Buffer.from(digest).toString('hex');
    return packed(
      `${JSON.stringify({ schema: 'evenfield.job/1', lines: 1, bytes: Buffer.byteLength(body), sha256 })}\n${body}`,
    );
  };
  expect(await opened(await signed('{"a":1}'))).toEqual([{ a: 1 }]);
  for (const line of [
    '{"$":"Float64Array","length":2,"base64":"AAAAAAAA8D8="}',
    '{"$":"Float64Array","length":1e9,"base64":"AAAAAAAA8D8="}',
    '{"$":"Float64Array","length":0.5,"base64":"AAAAAA=="}',
    '{"$":"Float64Array","base64":"!"}',
    '{"$":"Function","is":"alert()"}',
    '{"$":"constructor","length":0,"base64":""}',
    '{"$":"Map","is":[[1]]}',
    '{"$":"object","is":5}',
    '{"$":"Blob"}',
    '{"a":1',
    `${'['.repeat(200_000)}${']'.repeat(200_000)}`,
  ])
    expect(await opened(await signed(line)), line.slice(0, 60)).toBe('damaged');
});

test('another schema is refused by its number, an older one opened where the way from it is known', async () => {
  const text = await textOf(await writeJob([{ spread: 0.3 }]));
  const of = (schema: string) => packed(text.replace('evenfield.job/1', `evenfield.job/${schema}`));
  expect(await opened(of('3'))).toBe('other-schema 3');
  expect(await opened(of('0'))).toBe('other-schema 0');
  expect(await opened(of('one'))).toBe('damaged');
  const renamed: JobOpeners = {
    0: (part) => ({ spreadEv: (part as { spread: number }).spread }),
  };
  expect(await opened(of('0'), renamed)).toEqual([{ spreadEv: 0.3 }]);
  expect(await opened(of('2'), renamed)).toBe('other-schema 2');
});

test('what is no job is told apart from a damaged one', async () => {
  expect(await opened(new Blob(['\x89PNG']))).toBe('not-a-job');
  expect(await opened(new Blob([]))).toBe('not-a-job');
  expect(await opened(packed('no JSON at all\n'))).toBe('not-a-job');
  expect(await opened(packed('{"schema":"something else/1"}\n'))).toBe('not-a-job');
  expect(await opened(packed('x'.repeat(10_000)))).toBe('not-a-job');
  expect(await opened(packed('null\n'))).toBe('not-a-job');
  expect(await looksLikeJob(new Blob([new Uint8Array([0x1f, 0x8b])]))).toBe(true);
});

test('a file that would unpack without end is left after as much as it claims', async () => {
  const claims = (bytes: number) =>
    `${JSON.stringify({ schema: 'evenfield.job/1', lines: 1, bytes, sha256: null })}\n`;
  const bomb = packed(claims(1000) + ' '.repeat(100 * 2 ** 20)); // 100 KB on disk
  const [says, grown] = await grownBy(() => opened(bomb));
  expect(says).toBe('damaged');
  console.log(
    `measured: a job of ${bomb.size >> 10} KB that unpacks to 100 MB took at most ${grown.toFixed(1)} MB until it was refused`,
  );
  expect(grown).toBeLessThan(20);
  expect(await opened(packed(claims(1e12)))).toBe('too-large');
  expect(await opened(packed(claims(-1)))).toBe('damaged');
  expect(await opened(packed(claims(Number.NaN)))).toBe('damaged');
});

test('a file that claims as much as it unpacks to is gone through in pieces, and left at a line without end', async () => {
  const blank = Buffer.alloc(2 ** 20, ' ');
  const line = Buffer.concat([blank.subarray(1), Buffer.from('\n')]);
  const of = (...pieces: Buffer[]) => {
    const body = Buffer.concat(pieces);
    const lines = pieces.filter((piece) => piece.at(-1) === 0x0a).length;
    const header = { schema: 'evenfield.job/1', lines, bytes: body.length, sha256: null };
    return new Blob([gzipSync(Buffer.concat([Buffer.from(`${JSON.stringify(header)}\n`), body]))]);
  };
  for (const [file, says] of [
    [of(...Array<Buffer>(99).fill(blank), line), 'too-large'],
    [of(...Array<Buffer>(100).fill(line)), 'damaged'], // empty lines are no JSON
  ] as const) {
    const [found, grown] = await grownBy(() => opened(file));
    expect(found).toBe(says);
    console.log(`measured: 100 MB claimed and found, ${says}: at most ${grown.toFixed(1)} MB`);
    expect(grown).toBeLessThan(60); // what was let go counts until it is swept up
  }
});

test('what would not be opened again is not written: as a whole, or for one part of it', async () => {
  const parts = [{ a: 'x'.repeat(100) }, { b: 'x'.repeat(200) }];
  const file = await writeJob(parts);
  const [, first, second] = (await textOf(file)).split('\n').map((line) => line.length + 1);
  const bytes = first! + second!;
  const exact: JobLimits = { bytes, lineBytes: second! };
  expect(await opened(await writeJob(parts, undefined, exact), undefined, exact)).toEqual(parts);
  for (const small of [
    { ...exact, bytes: bytes - 1 },
    { ...exact, lineBytes: second! - 2 },
  ]) {
    await expect(writeJob(parts, undefined, small)).rejects.toMatchObject({ reason: 'too-large' });
    expect(await opened(file, undefined, small)).toBe('too-large');
  }
  expect(JOB_LIMITS.bytes).toBeGreaterThan(500 * 3.5 * 2 ** 20); // 500 takes of 16-bit frames
});

test('what is nested beyond all sense is refused as damaged, and no stack overflows', async () => {
  for (const [open, close] of [
    ['[', ']'],
    ['{"a":', '}'],
    ['{"$":"Set","is":[', ']}'],
  ] as const) {
    const body = `${open.repeat(200_000)}1${close.repeat(200_000)}\n`;
    const header = { schema: 'evenfield.job/1', lines: 1, bytes: body.length, sha256: null };
    expect(await opened(packed(`${JSON.stringify(header)}\n${body}`))).toBe('damaged');
  }
});
