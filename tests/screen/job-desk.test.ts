import { expect, test } from 'vitest';
import { EVEN } from '../../src/engine/aim.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { JobDesk, type JobSession } from '../../src/screen/job-desk.ts';
import { KeptShoots } from '../../src/screen/kept-shoots.ts';
import type { OpenedShoot } from '../../src/screen/opened-shoot.ts';
import type { ReadFailure } from '../../src/sources/read-failure.ts';
import { JOB_LIMITS, type JobLimits, readJob, writeJob } from '../../src/takes/job-file.ts';
import type { FullTake } from '../../src/takes/take.ts';
import { ShelfInMemory } from '../takes/shelf-in-memory.ts';
import { wholeTake } from '../takes/whole-take.ts';

const take = (id: string): FullTake => wholeTake(id, `note of ${id}`);

/** A page with so many takes, and what became of it. */
function page(...ids: string[]) {
  return pageWithin(JOB_LIMITS, ...ids);
}

function pageWithin(limits: JobLimits, ...ids: string[]) {
  const shelf = new ShelfInMemory();
  let counted = 0;
  const kept = new KeptShoots({
    ...{ shelf, claim: async () => true, pause: async () => {}, now: () => 7 },
    newId: () => `shoot-${++counted}`,
  });
  const state = {
    opened: [] as OpenedShoot[],
    refused: null as ReadFailure | null,
    said: [] as (string | null)[],
    cancels: 0,
  };
  const saved: { name: string; file: Blob }[] = [];
  const session = {
    ...{ takes: ids.map(take), tolerance: DEFAULT_TOLERANCE, aim: EVEN, answers: [] },
    cancel: () => state.cancels++,
    goOn(shoot: OpenedShoot) {
      state.opened.push(shoot);
      session.takes = shoot.takes as FullTake[];
    },
    show: async () => {},
    refuse: (failure: ReadFailure | null) => {
      state.refused = failure;
    },
  };
  const desk = new JobDesk(
    session as JobSession,
    kept,
    (words) => state.said.push(words),
    (name, file) => saved.push({ name, file }),
    limits,
  );
  if (ids.length > 0) kept.keep(session);
  return { shelf, kept, state, saved, session, desk };
}

const PROFILE = { schema: 'evenfield.profile/1' } as never;

async function jobOf(...ids: string[]): Promise<File> {
  const { desk, saved } = page(...ids);
  await desk.save(PROFILE, 'cm');
  return new File([saved[0]!.file], 'a.gz');
}

test('a job is saved by the newest take’s name, and what is under way is said and then over', async () => {
  const { desk, saved, state } = page('take-1', 'take-2');
  await desk.save(null, 'cm');
  expect(saved.map(({ name }) => name)).toEqual(['take-2.job.jsonl.gz']);
  expect(state.said).toEqual(['Putting 2 takes into one file…', null]);
  const nothing = page();
  await nothing.desk.save(null, 'cm');
  expect(nothing.saved).toEqual([]);
});

test('what can’t be put into a job is told, and nothing is saved', async () => {
  const { desk, saved, state, session } = page('take-1');
  session.takes = [{ ...session.takes[0]!, note: (() => {}) as never }];
  await desk.save(null, 'cm');
  expect(saved).toEqual([]);
  expect(state.refused).toMatchObject({ code: 'cannot-write' });
});

test('a job that could not be opened again is not handed out, and that is told with what to do', async () => {
  const { desk, saved, state } = pageWithin({ ...JOB_LIMITS, bytes: 5000 }, 'take-1', 'take-2', 'take-3');
  await desk.save(null, 'cm');
  expect(saved).toEqual([]);
  expect(state.refused).toMatchObject({ code: 'cannot-write' });
  expect(state.refused!.message).toMatch(/^The job was not saved: .* Delete takes/);
  expect(state.said.at(-1)).toBeNull();
});

test('its takes are put on the shelf one by one, and until the last is there nobody is offered them', async () => {
  const { desk, shelf, kept } = page();
  const job = await jobOf('take-1', 'take-2', 'take-3');
  const seen: number[] = [];
  const put = shelf.put.bind(shelf);
  shelf.put = async (...change) => {
    await put(...change);
    await kept.list(); // which does away with what was deleted
    seen.push(kept.shoots.length);
  };
  await desk.framesAmong([job]);
  expect(shelf.writes).toEqual([['take-1*'], ['take-2*'], ['take-3*'], []]);
  expect(seen).toEqual([0, 0, 0, 1]);
  expect((await shelf.shoots()).map(({ isDeleted }) => isDeleted)).toEqual([undefined]);
});

test('where a later take of it is damaged, nothing is kept of those before it', async () => {
  const { desk, shelf, state } = page();
  const parts: unknown[] = [];
  for await (const part of await readJob(await jobOf('take-1', 'take-2'))) parts.push(part);
  (parts[2] as { facts: { note: unknown } }).facts.note = 5;
  await desk.framesAmong([new File([await writeJob(parts)], 'bent.gz')]);
  expect(state.refused).toMatchObject({ code: 'unreadable-file', fileName: 'bent.gz' });
  expect(shelf.writes).toEqual([['take-1*']]);
  expect(shelf.held.size).toBe(0);
});

test('a job opens as a shoot of its own: what the page held stays kept as it was', async () => {
  const { desk, shelf, state } = page('take-1');
  expect(await desk.framesAmong([await jobOf('take-3', 'take-5')])).toEqual([]);
  expect(state.opened[0]!.takes.map(({ id, note }) => [id, note])).toEqual([
    ['take-3', 'note of take-3'],
    ['take-5', 'note of take-5'],
  ]);
  expect(state.opened[0]!.takes.at(-1)!.report).not.toBeNull();
  expect([...shelf.held.values()].map(({ shoot }) => shoot.order)).toEqual([
    ['take-1'],
    ['take-3', 'take-5'],
  ]);
  expect(state.cancels).toBe(1);
  expect(state.said.at(-1)).toBeNull();
});

test('its profile goes along when it is saved again', async () => {
  const { desk, saved } = page();
  await desk.framesAmong([await jobOf('take-1')]);
  await desk.save(null, 'cm');
  const again = page();
  await again.desk.framesAmong([new File([saved[0]!.file], 'b')]);
  await again.desk.save(null, 'cm');
  const text = await new Response(
    again.saved[0]!.file.stream().pipeThrough(new DecompressionStream('gzip')),
  ).text();
  expect(JSON.parse(text.split('\n')[1]!).profile).toEqual(PROFILE);
});

test('frames are left to be read; of a job only its content tells', async () => {
  const { desk, state } = page();
  const frames = [new File(['\xff\xd8'], 'a.job.jsonl.gz'), new File([], 'b.jpg')];
  expect(await desk.framesAmong(frames)).toBe(frames);
  expect(state.opened).toEqual([]);
  await desk.framesAmong([frames[0]!, new File([await jobOf('take-1')], 'c.jpg')]);
  expect(state.opened).toHaveLength(1);
});

test('a refused job leaves takes and shelf as they were, and names the file', async () => {
  const { desk, shelf, state, session, kept } = page('take-1');
  await kept.settled();
  const [takes, before] = [session.takes, structuredClone([...shelf.held])];
  const job = await jobOf('take-2');
  const odd = new File([await writeJob([{ kind: 'shoot', takeSchema: 1 }])], 'old.gz');
  for (const [file, code, says] of [
    [new File([job.slice(0, -20)], 'cut.gz'), 'unreadable-file', 'damaged'],
    [odd, 'unsupported-file', 'an older Evenfield'],
    [new File([await writeJob([])], 'empty.gz'), 'unreadable-file', 'damaged'],
  ] as const) {
    expect(await desk.framesAmong([file])).toEqual([]);
    expect(state.refused).toMatchObject({ code, fileName: file.name });
    expect(state.refused!.message).toContain(says);
    expect(session.takes).toBe(takes);
    expect([...shelf.held]).toEqual(before);
  }
});

test('without room it opens on an empty page alone, which says what is not kept', async () => {
  const job = await jobOf('take-2');
  const full = page('take-1');
  await full.kept.settled();
  full.shelf.trouble = 'QuotaExceededError';
  await full.desk.framesAmong([job]);
  expect(full.state.refused).toMatchObject({ code: 'storage-full', fileName: 'a.gz' });
  expect(full.session.takes.map(({ id }) => id)).toEqual(['take-1']);

  const empty = page();
  empty.shelf.trouble = 'QuotaExceededError';
  await empty.desk.framesAmong([job]);
  expect(empty.state.refused).toBeNull();
  expect(empty.session.takes.map(({ id, report }) => [id, report === null])).toEqual([['take-2', false]]);

  // the page's own takes could not be kept: to open another shoot would lose them
  const unkept = page();
  unkept.shelf.trouble = 'QuotaExceededError';
  unkept.session.takes = [take('take-9')];
  unkept.kept.keep(unkept.session);
  await unkept.kept.settled();
  unkept.shelf.trouble = null;
  await unkept.desk.framesAmong([job]);
  expect(unkept.state.refused).toMatchObject({ code: 'storage-full' });
});
