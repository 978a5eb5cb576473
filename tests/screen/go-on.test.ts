import { beforeEach, expect, test } from 'vitest';
import { BenchSession } from '../../src/screen/bench-session.ts';
import type { OpenedShoot } from '../../src/screen/opened-shoot.ts';
import { NO_SHELF } from '../../src/screen/takes-on-shelf.ts';
import { type FullTake, isInFull, withoutReport } from '../../src/takes/take.ts';
import { file, heldBack, judgedBy, SessionWatch } from './session-watch.ts';

let watch = new SessionWatch();
beforeEach(() => {
  watch = new SessionWatch();
});

const names = (bench: BenchSession) => bench.takes.map(({ reading }) => reading.frame.name);

/** A kept shoot, whose takes bear the same ids as any other's. */
async function keptShoot(...frames: string[]): Promise<OpenedShoot> {
  const bench = new SessionWatch().session();
  for (const name of frames) await bench.read([file(name)], { done: [] });
  const { takes, tolerance, aim, answers } = bench;
  return { takes, tolerance, aim, answers };
}

test('a take that was deleted before another shoot is gone on with is not taken back into that one', async () => {
  const bench = watch.session();
  await bench.read([file('here.png')]);
  await bench.delete('take-1');
  bench.goOn(await keptShoot('kept.png'));
  expect(bench.deleted).toBeNull();
  await bench.takeBack();
  expect(names(bench)).toEqual(['kept.png']);
});

test('another shoot is shown from its newest take on, whichever was shown before', async () => {
  const bench = watch.session();
  for (const name of ['a.png', 'b.png']) await bench.read([file(name)]);
  await bench.show('take-1');
  bench.goOn(await keptShoot('kept.png', 'newest.png'));
  expect(bench.shown!.reading.frame.name).toBe('newest.png');
});

test('a read under way when another shoot is gone on with is stopped, and adds nothing to that one', async () => {
  const bench = watch.session();
  const { held, letGo } = heldBack();
  watch.held.read = held;
  const reading = Promise.allSettled([bench.read([file('a.png')]), bench.read([file('waiting.png')])]);
  await expect.poll(() => watch.calls).toContain('read a.png');
  bench.goOn(await keptShoot('kept.png'));
  letGo();
  expect((await reading).map(({ status }) => status)).toEqual(['rejected', 'rejected']);
  expect([names(bench), bench.progress]).toEqual([['kept.png'], null]);
});

test('what is still judged of the shoot before comes to nothing in the next one', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  const { held, letGo } = heldBack();
  watch.held.rejudge = held;
  const shoot = await keptShoot('kept.png');
  const judging = bench.judgeBy({ aim: { kind: 'ramp', angleDeg: 270, ev: 2 } });
  // the same take under both, as where the present shoot is gone on with
  bench.goOn({
    ...shoot,
    takes: bench.takes.map((take) => ({ ...take, judgedBy: shoot.takes[0]!.judgedBy })),
  });
  const [before] = bench.takes;
  letGo();
  await judging;
  expect(bench.takes[0]!.report).toBe(before!.report);
});

test('a take that is fetched when another shoot is gone on with is not put into that one', async () => {
  const { held, letGo } = heldBack();
  let older: FullTake;
  const bench = new BenchSession(
    watch.engine,
    { reading: () => {}, progress: () => {}, changed: () => {}, failure: () => {} },
    { ...NO_SHELF, reportOf: () => held.then(() => older.report) },
  );
  const light = ({ takes, ...shoot }: OpenedShoot) => ({
    ...shoot,
    takes: takes.map((take, i) => (i === 0 && isInFull(take) ? withoutReport(take) : take)),
  });
  const before = await keptShoot('a.png', 'b.png');
  older = before.takes[0] as FullTake;
  bench.goOn(light(before));
  const deleting = bench.delete('take-2');
  const showing = bench.show('take-1');
  bench.goOn(light(await keptShoot('kept.png', 'newest.png')));
  expect(bench.fetching).toBeNull();
  letGo();
  await Promise.all([deleting, showing]);
  expect(names(bench)).toEqual(['kept.png', 'newest.png']);
  expect(judgedBy(bench.shown!.report)).toBe(bench.tolerance.name);
});
