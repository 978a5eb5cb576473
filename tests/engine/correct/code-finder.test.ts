import { expect, test } from 'vitest';
import { codeFinder, codeOfLight } from '../../../src/engine/correct/code-finder.ts';
import { lightTable } from '../../../src/engine/frame/light-table.ts';
import { decodeSrgb } from '../../synthetic/code-thresholds.ts';

for (const [name, decode] of [
  ['sRGB', decodeSrgb],
  ['linear', (code: number) => code],
  ['exponent 2.2', (code: number) => code ** 2.2],
] as const) {
  for (const bits of [8, 16] as const) {
    test(`codeOfLight undoes the ${name} table of ${bits} bits, on its codes and between them`, () => {
      const table = lightTable(bits, decode);
      const finder = codeFinder(table);
      let worst = 0;
      for (let code = 0; code < table.length - 1; code += bits === 8 ? 0.25 : 12.25) {
        const low = Math.floor(code);
        const light = table[low]! + (code - low) * (table[low + 1]! - table[low]!);
        worst = Math.max(worst, Math.abs(codeOfLight(finder, light) - code));
      }
      console.log(`measured: ${name}, ${bits} bits: codes found within ${worst.toFixed(4)}`);
      expect(worst).toBeLessThanOrEqual(0.05);
    });
  }
}

test('codeOfLight stays within the codes there are', () => {
  const finder = codeFinder(lightTable(8, decodeSrgb));
  expect([-1, 0, Number.NaN, 1e-30].map((light) => codeOfLight(finder, light))).toEqual([0, 0, 0, 0]);
  expect([1, 1 - 1e-12, 5, Number.POSITIVE_INFINITY].map((light) => codeOfLight(finder, light))).toEqual([
    255, 255, 255, 255,
  ]);
});

test('a table that stands still or falls somewhere is still undone to codes in order', () => {
  const table = Float64Array.of(0, 0.1, 0.1, 0.1, 0.4, 0.3, 0.8, 1);
  const finder = codeFinder(table);
  const codes = [0.05, 0.1, 0.2, 0.35, 0.5, 0.9].map((light) => codeOfLight(finder, light));
  expect(codes.every((code, i) => i === 0 || code >= codes[i - 1]!)).toBe(true);
  expect(codes.every(Number.isFinite)).toBe(true);
});
