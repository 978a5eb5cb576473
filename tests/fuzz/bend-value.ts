import type { SeededRandom } from '../../src/engine/numeric/seeded-random.ts';

/** What a number, a text or a list may be instead of what it should. */
function oddValue({ uniform }: SeededRandom): unknown {
  const odd: readonly (() => unknown)[] = [
    () => Number.NaN,
    () => Number.POSITIVE_INFINITY,
    () => Number.NEGATIVE_INFINITY,
    () => -0,
    () => 0,
    () => 5e-324,
    () => -1,
    () => 1.5,
    () => 1e308,
    () => -1e308,
    () => 2 ** 53,
    () => 2 ** 32,
    () => null,
    () => undefined,
    () => '',
    () => '__proto__',
    () => 'x'.repeat(5000),
    () => '12',
    () => true,
    () => [],
    () => ({}),
    () => [[[[[]]]]],
    () => nested(2000),
    () => JSON.parse('{"__proto__":{"schema":"evenfield.profile/1"},"constructor":1}'),
    () => new Array(1000),
    () => Array(5000).fill(0),
    () => 10 ** (600 * (uniform() - 0.5)),
    () => (uniform() - 0.5) * 100,
  ];
  return odd[Math.floor(uniform() * odd.length)]!();
}

function nested(depth: number): unknown {
  let value: unknown = 1;
  for (let i = 0; i < depth; i++) value = i % 2 ? [value] : { is: value };
  return value;
}

const isHolder = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !(value instanceof Blob);

/** A copy of structured data with one to three places bent: a value that is none, a key left out, added or exchanged. */
export function bentValue<Value>(value: Value, random: SeededRandom): Value {
  const root = { value: structuredClone(value) } as Record<string, unknown>;
  const times = 1 + Math.floor(random.uniform() * 3);
  for (let time = 0; time < times; time++) bendOne(root, random);
  return root.value as Value;
}

function bendOne(root: Record<string, unknown>, random: SeededRandom): void {
  let holder = root;
  let key = 'value';
  // most of a tree is leaves far down: go on down as long as there is a way, mostly
  while (isHolder(holder[key]) && random.uniform() < 0.85) {
    const keys = Object.keys(holder[key] as object);
    if (keys.length === 0) break;
    holder = holder[key] as Record<string, unknown>;
    key = keys[Math.floor(random.uniform() * keys.length)]!;
  }
  if (ArrayBuffer.isView(holder)) {
    const odd = oddValue(random);
    (holder as unknown as Float64Array)[Number(key)] = typeof odd === 'number' ? odd : Number.NaN;
    return;
  }
  const how = random.uniform();
  if (how < 0.6 || holder === root) holder[key] = oddValue(random);
  else if (how < 0.75) delete holder[key];
  else if (how < 0.85) holder[`${key}2`] = oddValue(random);
  else if (Array.isArray(holder)) (holder as unknown[]).splice(Number(key), 0, holder[key]);
  else {
    const keys = Object.keys(holder);
    const other = keys[Math.floor(random.uniform() * keys.length)]!;
    [holder[key], holder[other]] = [holder[other], holder[key]];
  }
}
