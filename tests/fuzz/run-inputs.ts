import { mkdirSync, writeFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Worker } from 'node:worker_threads';
import { type SeededRandom, seededRandom } from '../../src/engine/numeric/seeded-random.ts';

/** One kind of hard input. Each is made from its seed alone, so that the seed brings it back. */
export interface InputKind<Input> {
  readonly name: string;
  make(random: SeededRandom, seed: number): Input;
  /** How it ended, in a word. @throws for every ending that is not right. */
  end(input: Input): Promise<string>;
  /** What is written down of one that ended wrong. */
  bytes(input: Input): Uint8Array;
}

/** What became of some inputs of one kind. */
export interface Tally {
  readonly endings: ReadonlyMap<string, number>;
  readonly wrong: readonly string[];
  /** Of work: what the process computed meanwhile, in all its threads, whatever else the machine does. */
  readonly slowestMs: number;
  readonly slowestSeed: number;
  /** Resident memory of the process before, at its highest, and after, in bytes. */
  readonly memory: { readonly before: number; readonly highest: number; readonly after: number };
}

/** What takes more work than this counts as a hang; the slowest take a fifth of it. */
export const LONGEST_MS = 10_000;
/** By the clock, after which the run is ended: a machine that is shared may take so many times longer. */
const NO_END_MS = 60_000;
/** Failing inputs lie here, named by kind and seed: git takes no notice of the folder. */
const KEPT_IN = 'reports/fuzz';

/** Runs inputs one after the other. */
export async function runInputs<Input>(kind: InputKind<Input>, seeds: Iterable<number>): Promise<Tally> {
  const endings = new Map<string, number>();
  const wrong: string[] = [];
  let [slowestMs, slowestSeed] = [0, -1];
  const watch = startWatch();
  const before = memoryKept();
  let highest = before;
  try {
    for (const seed of seeds) {
      const input = kind.make(seededRandom(seed), seed);
      watch.begin(kind, input, seed);
      const started = process.cpuUsage();
      const ending = await kind.end(input).catch((error: unknown) => {
        wrong.push(`${kind.name} ${seed}: ${error instanceof Error ? error.stack : String(error)}`);
        keep(kind, input, seed, wrong.at(-1)!);
        return 'WRONG';
      });
      const { user, system } = process.cpuUsage(started);
      const ms = (user + system) / 1000;
      endings.set(ending, (endings.get(ending) ?? 0) + 1);
      if (ms > slowestMs) [slowestMs, slowestSeed] = [ms, seed];
      highest = Math.max(highest, process.memoryUsage.rss());
    }
  } finally {
    watch.stop();
  }
  return { endings, wrong, slowestMs, slowestSeed, memory: { before, highest, after: memoryKept() } };
}

export function tallySays(name: string, { endings, slowestMs, slowestSeed, memory }: Tally): string {
  const count = [...endings.values()].reduce((sum, each) => sum + each, 0);
  const counts = [...endings].sort(([, a], [, b]) => b - a).map(([ending, times]) => `${ending} ${times}`);
  const mb = (bytes: number) => `${Math.round(bytes / 2 ** 20)}`;
  return (
    `measured: ${count} hard inputs of ${name}: ${counts.join(', ')}; slowest ${slowestMs.toFixed(0)} ms of work (seed ${slowestSeed}); ` +
    `memory ${mb(memory.before)} MB before, ${mb(memory.highest)} at its highest, ${mb(memory.after)} after`
  );
}

function keep<Input>(kind: InputKind<Input>, input: Input, seed: number, says: string): void {
  mkdirSync(KEPT_IN, { recursive: true });
  const name = `${KEPT_IN}/${kind.name.replaceAll(/\W+/g, '-')}-${seed}`;
  writeFileSync(`${name}.bin`, kind.bytes(input));
  writeFileSync(`${name}.txt`, `${says}\n`);
}

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Resident memory once everything that nobody holds is gone. */
function memoryKept(): number {
  collect();
  collect();
  return process.memoryUsage.rss();
}

/**
 * A computation without an end can't be stopped from its own thread: another one writes down which input it was and
 * ends the process.
 */
function startWatch() {
  const beginnings = new Int32Array(new SharedArrayBuffer(4));
  const thread = new Worker(WATCH, { eval: true, workerData: { beginnings, limitMs: NO_END_MS } });
  thread.unref();
  return {
    begin<Input>(kind: InputKind<Input>, input: Input, seed: number) {
      Atomics.add(beginnings, 0, 1);
      thread.postMessage({
        says: `${kind.name} ${seed}: no end after ${NO_END_MS} ms`,
        bytes: kind.bytes(input),
      });
    },
    stop: () => void thread.terminate(),
  };
}

const WATCH = `
const { parentPort, workerData } = require('node:worker_threads');
const { mkdirSync, writeFileSync } = require('node:fs');
let [seen, since, last] = [-1, Date.now(), null];
parentPort.on('message', (message) => { last = message; });
setInterval(() => {
  const now = Atomics.load(workerData.beginnings, 0);
  if (now !== seen) [seen, since] = [now, Date.now()];
  if (last === null || Date.now() - since < workerData.limitMs) return;
  mkdirSync('${KEPT_IN}', { recursive: true });
  writeFileSync('${KEPT_IN}/hang.bin', last.bytes);
  writeFileSync('${KEPT_IN}/hang.txt', last.says);
  console.error(last.says);
  process.kill(process.pid, 'SIGKILL');
}, 500);
`;
