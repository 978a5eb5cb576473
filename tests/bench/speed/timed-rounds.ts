import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';

/** Milliseconds of each round, by what was timed. */
export type Times = Record<string, number[]>;

export interface Aim {
  /** What is measured, and against what; that left out: against the figure itself, in its own unit. */
  readonly of: string;
  readonly against?: string;
  readonly atMost: number;
}

/** What is timed in each round, by name: what each resolves to are its milliseconds, or those of its parts. */
export type Contenders = Record<string, () => Promise<number | Readonly<Record<string, number>>>>;

/** Rounds that count, after one to warm up. */
export const ROUNDS = Number(process.env.EVENFIELD_BENCH_ROUNDS ?? 7);

/** Each contender once a round, one after the other, so that whatever else the machine does meets all alike. */
export async function interleaved(contenders: Contenders, rounds = ROUNDS): Promise<Times> {
  const times: Times = {};
  for (let round = 0; round <= rounds; round++)
    for (const [name, work] of Object.entries(contenders)) {
      const taken = await work();
      if (round === 0) continue; // to warm up
      for (const [part, ms] of Object.entries(typeof taken === 'number' ? { [name]: taken } : taken))
        times[part] = [...(times[part] ?? []), ms];
    }
  return times;
}

export function median(values: readonly number[]): number {
  const inOrder = values.toSorted((a, b) => a - b);
  const middle = inOrder.length >> 1;
  return inOrder.length % 2 ? inOrder[middle]! : (inOrder[middle - 1]! + inOrder[middle]!) / 2;
}

const KEPT = 'reports/bench.json';

type Kept = Record<string, { readonly unit: string; readonly values: Times }>;

/**
 * Prints a row with its medians, ranges and the ratios that have an aim, keeps it in `reports/bench.json`, and holds it
 * against a kept file where `EVENFIELD_BENCH_COMPARE` names one.
 */
export function report(row: string, values: Times, aims: readonly Aim[] = [], unit = 'ms'): void {
  const digits = unit === 'ms' ? 0 : 2;
  const earlier = kept(process.env.EVENFIELD_BENCH_COMPARE)[row]?.values;
  const most = Math.max(...Object.values(values).map((each) => each.length));
  console.log(`measured: ${row}`);
  for (const [name, each] of Object.entries(values)) {
    const range = `${Math.min(...each).toFixed(digits)} to ${Math.max(...each).toFixed(digits)}`;
    const before = earlier?.[name];
    const beside = before ? `, ${(median(each) / median(before)).toFixed(2)} × the kept one` : '';
    const fewer = each.length < most ? `, in ${each.length} of ${most} rounds` : '';
    console.log(`    ${name.padEnd(34)} ${median(each).toFixed(digits)} ${unit} (${range})${fewer}${beside}`);
  }
  for (const { of, against, atMost } of aims) {
    const [above, below] = [values[of], against === undefined ? [1] : values[against]];
    if (!above || !below) continue; // a tool that is not installed
    const ratio = median(above) / median(below);
    const what = against === undefined ? of : `${of} ÷ ${against}`;
    const figure = against === undefined ? `${ratio.toFixed(digits)} ${unit}` : ratio.toFixed(2);
    console.log(`    ${ratio <= atMost ? 'within' : 'BEYOND'} the aim: ${what} is ${figure}, aim ${atMost}`);
  }
  mkdirSync('reports', { recursive: true });
  writeFileSync(KEPT, JSON.stringify({ ...kept(KEPT), [row]: { unit, values } }, null, 1));
}

function kept(path: string | undefined): Kept {
  if (path === undefined) return {};
  try {
    return JSON.parse(readFileSync(path, 'utf8')) as Kept;
  } catch (error) {
    if (path === KEPT && (error as NodeJS.ErrnoException).code === 'ENOENT') return {};
    throw error;
  }
}
