import { expect, test } from 'vitest';
import { EVEN } from '../../src/engine/aim.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { jobNotSavedWords } from '../../src/screen/words/job-words.ts';
import { JobRefusal, readJob, writeJob } from '../../src/takes/job-file.ts';
import { jobOfParts, jobParts } from '../../src/takes/job-of-takes.ts';
import { partsOf, reportOfParts, type ShelvedParts, takeOfParts } from '../../src/takes/shelved-take.ts';
import { type FullTake, type HeldTake, judgedAnew, withoutReport } from '../../src/takes/take.ts';
import { TAKE_SCHEMA } from '../../src/takes/take-shelf.ts';
import { wholeTake } from './whole-take.ts';

function take(id: string, note: string, shotAt: number): FullTake {
  const plain = wholeTake(id, note, shotAt);
  const highlightShare = plain.report.grid.highlightShare.map((_, i) => [0, 0.5, Number.NaN, -0][i % 4]!);
  return judgedAnew(
    plain,
    { ...plain.report, grid: { ...plain.report.grid, highlightShare } },
    plain.judgedBy,
  );
}

/** As much of a part as is bent here. */
interface LoosePart {
  facts: { note: unknown; figures: { grid: object } };
  maps?: object;
  evidence: { grid: object };
}

const full = [take('take-1', 'bare', 5000), take('take-4', 'grid cloth', 9000)];
const FACTS = {
  tolerance: DEFAULT_TOLERANCE,
  aim: EVEN,
  answers: [{ kind: 'done' }, null],
  profile: null,
} as const;
const record = () => [['Verdict', 'Even enough.']] as const;

async function parts(takes: readonly HeldTake[] = full): Promise<LoosePart[]> {
  const all: unknown[] = [];
  const inFull = async ({ id }: HeldTake) => full.find((each) => each.id === id)!;
  for await (const part of jobParts(takes, FACTS, record, inFull)) all.push(part);
  return structuredClone(all) as LoosePart[];
}

test('takes go into a job and come back as they would lie on the shelf, those without a report too', async () => {
  const file = await writeJob(await parts([withoutReport(full[0]!), full[1]!]));
  const { shoot, takes: inFile, profile } = await jobOfParts(await readJob(file));
  const takes = new Map<string, Required<ShelvedParts>>();
  for await (const [id, back] of inFile) takes.set(id, back);
  expect([...takes.keys()]).toEqual(shoot.order);
  expect(shoot).toEqual({
    ...{ schema: TAKE_SCHEMA, beganAt: 5000, lastAt: 9000, takes: 2, order: ['take-1', 'take-4'] },
    ...{ tolerance: DEFAULT_TOLERANCE, aim: EVEN, answers: [{ kind: 'done' }, null] },
  });
  expect(profile).toBeNull();
  for (const each of full) {
    const back = takes.get(each.id)!;
    expect(back).toStrictEqual(structuredClone(partsOf(each, true)));
    const held = takeOfParts(back.facts, back.judged!.maps, []);
    expect(reportOfParts(held, back.judged!.evidence)).toEqual(each.report);
    expect(held.reading).toEqual(each.reading);
  }
});

test('a take that would not be opened again is refused by its number where it is saved, not on another machine', async () => {
  const unsound = { ...full[1]!, note: 5 as unknown as string };
  const saving = async () => {
    for await (const _ of jobParts([full[0]!, unsound], FACTS, record, async (take) => take as FullTake));
  };
  await expect(saving()).rejects.toMatchObject({ reason: 'unsound-take', take: 4 });
  expect(jobNotSavedWords(await saving().catch((error: unknown) => error))).toMatch(
    /^The job was not saved: take 4 /,
  );
});

test('each take has its record beside it, in words', async () => {
  const [, first] = await parts();
  expect(first).toMatchObject({ kind: 'take', record: [['Verdict', 'Even enough.']] });
});

async function reasonOf(bent: unknown[]): Promise<string> {
  async function* parts() {
    yield* bent;
  }
  try {
    const { takes } = await jobOfParts({ [Symbol.asyncIterator]: parts });
    for await (const _ of takes);
  } catch (error) {
    if (error instanceof JobRefusal) return error.reason;
    throw error;
  }
  return 'opened';
}

test('what does not go together is refused as damaged, takes of another shape by their schema', async () => {
  expect(await reasonOf(await parts())).toBe('opened');
  const bends: ((all: LoosePart[]) => unknown)[] = [
    (all) => all.pop(),
    (all) => all.reverse(),
    (all) => all.push(all[1]!),
    (all) => Object.assign(all[0]!, { order: ['take-1', 'take-1'] }),
    (all) => Object.assign(all[0]!, { order: ['take-1', '__proto__'] }),
    (all) => Object.assign(all[0]!, { beganAt: Number.NaN }),
    (all) => Object.assign(all[0]!, { tolerance: { ...DEFAULT_TOLERANCE, limit: -1 } }),
    (all) => Object.assign(all[0]!, { aim: { kind: 'rainbow' } }),
    (all) => Object.assign(all[1]!, { kind: 'note' }),
    (all) => Object.assign(all[1]!.facts, { note: 5 }),
    (all) => Object.assign(all[1]!.facts.figures.grid, { columns: 3 }),
    (all) => Object.assign(all[1]!.maps!, { ev: [0, 1, 2, 3] }),
    (all) => Object.assign(all[2]!.evidence.grid, { highlightShare: new Float64Array(3) }),
    (all) => Object.assign(all[1]!.facts.figures, { falloff: {} }),
    (all) => Object.assign(all[1]!.facts, { setup: { arrangement: 'outdoors' } }),
    (all) => Object.assign(all[2]!.evidence, { level: null }),
    (all) => Object.assign(all[0]!, { answers: new Array(3) }),
    (all) => Object.assign(all[0]!, { profile: 'a profile' }),
    (all) => delete all[2]!.maps,
    (all) => all.splice(0, all.length, null as never),
  ];
  for (const [i, bend] of bends.entries()) {
    const all = await parts();
    bend(all);
    expect(await reasonOf(all), `bend ${i}`).toBe('damaged');
  }
  expect(await reasonOf([])).toBe('damaged');
  const other = await parts();
  Object.assign(other[0]!, { takeSchema: TAKE_SCHEMA + 1 });
  expect(await reasonOf(other)).toBe('other-takes');
});
