import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterEach, expect, test } from 'vitest';
import { functionOfText, withKnownTexts } from '../../workers/functions-of-text.ts';
import { type MakeLibraw, openRawFile } from '../../workers/raw-decoder.ts';
import { dngOf } from '../synthetic/bayer-mosaic.ts';

const Native = Function;
afterEach(() => {
  globalThis.Function = Native;
});

/** A platform whose policy refuses to make scripts of text. */
const Refusing = new Proxy(Native, {
  construct() {
    throw new EvalError('refused by the policy');
  },
  apply() {
    throw new EvalError('refused by the policy');
  },
});

const texts: [string, string[], string, unknown[], unknown[]][] = [
  [
    'values wired into a call and back',
    ['throwError', 'invoker', 'fn', 'toThis', 'toArg0', 'back'],
    'return function (arg0) {\nvar thisWired = toThis(null, this);\nvar arg0Wired = toArg0(null, arg0);\nvar rv = invoker(fn, thisWired,arg0Wired);\nvar ret = back(rv);\nreturn ret;\n}\n',
    [
      null,
      (f: number, t: object, a: number) => [f, t, a],
      7,
      (_: null, t: object) => t,
      (_: null, a: number) => a * 2,
      (rv: unknown) => rv,
    ],
    [21],
  ],
  [
    'destructors',
    ['invoker', 'fn', 'run'],
    'return function () {\nvar destructors = [];\nvar rv = invoker(fn);\nrun(destructors);\nreturn rv;\n}\n',
    [(f: unknown) => f, 'made', () => {}],
    [],
  ],
  [
    'a method called by its name',
    ['toValue', 'argFromPtr0', 'name'],
    'return function (handle, methodName, args) {\nreturn toValue(handle)[name(methodName)](argFromPtr0(args+8))\n}',
    [(handle: object) => handle, (at: number) => at + 1, (key: string) => key],
    [[4, 5, 6, 14], 'indexOf', 5],
  ],
  [
    'a constructor',
    ['toValue', 'argFromPtr0'],
    'return function (handle, args) {\nreturn new (toValue(handle))(argFromPtr0(args))\n}',
    [(handle: unknown) => handle, (at: number) => at],
    [Array, 3],
  ],
];
for (const [name, names, text, handed, given] of texts)
  test(`functionOfText does as the platform’s own function would with ${name}`, () => {
    const own = functionOfText(names, text)!(...handed) as (...given: unknown[]) => unknown;
    const native = new Native(...names, text)(...handed);
    const owner = { owner: true };
    expect(own.apply(owner, given)).toEqual(native.apply(owner, given));
  });

test('functionOfText leaves other texts alone, and withKnownTexts hands them to the platform', () => {
  for (const text of [
    'return 1',
    'return function (a) {\nif (a) b();\n}',
    'return function () {\na = `b`;\n}',
  ])
    expect(functionOfText([], text)).toBeNull();
  const Known = withKnownTexts(Native);
  expect(new Known('a', 'return a + 1')(2)).toBe(3);
  expect(() => {}).toBeInstanceOf(Known);
});

test('LibRaw opens, unpacks and develops a file where no script is made of text, to the same values', async () => {
  const require = createRequire(import.meta.url);
  const wasmBinary = readFileSync(require.resolve('libraw-wasm/dist/libraw.wasm'));
  const LIBRAW: string = 'libraw-wasm/dist/libraw.js';
  const { default: makeLibraw } = (await import(LIBRAW)) as { default: MakeLibraw };
  const dng = dngOf(() => [0.4, 0.3, 0.2], {
    ...{ widthPx: 64, heightPx: 48, order: 'RGGB', bits: 14, white: 15_000, seed: 1 },
    black: { rows: 1, columns: 1, levels: [512] },
  });
  const all = async () => {
    const raw = await openRawFile(makeLibraw, { wasmBinary }, dng);
    const mosaic = await raw.mosaic();
    const picture = await raw.developed({ halfSize: false, multipliers: [2, 1, 1.5] });
    return { metadata: raw.metadata, mosaic, picture };
  };
  const asIs = await all();
  globalThis.Function = Refusing;
  await expect(all()).rejects.toThrow(/refused by the policy/); // it does make functions of text
  globalThis.Function = withKnownTexts(Refusing);
  expect(await all()).toEqual(asIs);
});
