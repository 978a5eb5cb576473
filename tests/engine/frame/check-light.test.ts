import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { checkLight } from '../../../src/engine/frame/check-light.ts';

const rising = Float64Array.from({ length: 256 }, (_, code) => (code / 255) ** 2);
const tables = (change: Partial<Record<'red' | 'green' | 'blue', Float64Array>> = {}) => ({
  lightAtCode: { red: rising, green: rising, blue: rising, ...change },
});

function codeOf(work: () => void): string {
  try {
    work();
  } catch (error) {
    if (error instanceof EngineError) return `${error.code} ${error.detail.channel} ${error.detail.code}`;
    throw error;
  }
  return 'taken';
}

test('checkLight() takes light that ends, below black too', () => {
  expect(codeOf(() => checkLight(tables()))).toBe('taken');
  expect(codeOf(() => checkLight(tables({ red: rising.map((light) => light - 0.01) })))).toBe('taken');
});

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e300])(
  'checkLight() refuses a code that stands for %s, and says which',
  (light) => {
    const odd = rising.slice();
    odd[77] = light;
    expect(codeOf(() => checkLight(tables({ green: odd })))).toBe('unreadable-file green 77');
  },
);
