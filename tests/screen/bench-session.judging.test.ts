import { beforeEach, expect, test } from 'vitest';
import type { Aim } from '../../src/engine/aim.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { TOLERANCES } from '../../src/engine/tolerances.ts';
import { toldBefore } from '../../src/takes/foretold.ts';
import { file, heldBack, judgedBy, SessionWatch } from './session-watch.ts';

let watch = new SessionWatch();
beforeEach(() => {
  watch = new SessionWatch();
});

test('assigning an equal set-up or tolerance changes nothing', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  watch.calls.length = 0;
  await bench.judgeBy({ setup: structuredClone(UNKNOWN_SETUP), tolerance: structuredClone(bench.tolerance) });
  expect(watch.calls).toEqual([]);
});

test('another tolerance judges every take anew without reading it again', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png')]);
  watch.calls.length = 0;
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(watch.calls).toEqual([
    `rejudge a.png by ${TOLERANCES.at(-1)!.name}`,
    `rejudge b.png by ${TOLERANCES.at(-1)!.name}`,
  ]);
  expect(bench.takes.map(({ reading, report }) => reading === report!.reading)).toEqual([true, true]);
});

test('another aim judges every take anew, an equal one none; a shoot gone on with brings its own', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  watch.calls.length = 0;
  await bench.judgeBy({ aim: { kind: 'even' } });
  expect(watch.calls).toEqual([]);
  const ramp: Aim = { kind: 'ramp', angleDeg: 270, ev: 2 };
  await bench.judgeBy({ aim: ramp });
  await bench.judgeBy({ aim: { ...ramp } });
  expect(watch.calls).toHaveLength(1);
  expect(bench.aim).toEqual(ramp);
  bench.goOn({ takes: bench.takes, tolerance: bench.tolerance, aim: { kind: 'even' }, answers: [] });
  expect(bench.aim).toEqual({ kind: 'even' });
});

test('settings changed while a frame is read, and again while it is judged, hold for it: the newest judge it', async () => {
  const bench = watch.session();
  const [readHeld, judgeHeld] = [heldBack(), heldBack()];
  watch.held = { read: readHeld.held, rejudge: judgeHeld.held };
  const reading = bench.read([file('a.png')]);
  await expect.poll(() => watch.told).toContain('decoding');
  const [first, second, third] = TOLERANCES.filter(({ name }) => name !== bench.tolerance.name);
  await bench.judgeBy({ tolerance: first! });
  readHeld.letGo();
  await expect.poll(() => watch.calls).toContain(`rejudge a.png by ${first!.name}`);
  await bench.judgeBy({ tolerance: second! });
  await bench.judgeBy({ tolerance: third! });
  expect(bench.takes).toEqual([]);
  judgeHeld.letGo();
  await reading;
  expect(watch.calls).toEqual([
    'read a.png',
    `rejudge a.png by ${first!.name}`,
    `rejudge a.png by ${third!.name}`,
  ]);
  expect(judgedBy(bench.takes[0]!.report!)).toBe(third!.name);
});

test('settings changed before the engine has the frame do not make it judge twice', async () => {
  const bench = watch.session();
  const reading = bench.read([file('a.png')]);
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  await reading;
  expect(watch.calls).toEqual(['read a.png']);
  expect(judgedBy(bench.takes[0]!.report!)).toBe(TOLERANCES.at(-1)!.name);
});

test('a reading that is stopped while it is judged anew leaves no take', async () => {
  const bench = watch.session();
  const [readHeld, judgeHeld] = [heldBack(), heldBack()];
  watch.held = { read: readHeld.held, rejudge: judgeHeld.held };
  const reading = bench.read([file('a.png')]);
  await expect.poll(() => watch.told).toContain('decoding');
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  readHeld.letGo();
  await expect.poll(() => watch.calls).toHaveLength(2);
  bench.cancel();
  judgeHeld.letGo();
  await expect(reading).rejects.toMatchObject({ code: 'cancelled' });
  expect(bench.takes).toEqual([]);
});

test('a take that is read again while all are judged anew keeps what was read last', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png')]);
  const { held, letGo } = heldBack();
  watch.held = { ...watch.held, rejudge: held };
  const judging = bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  const region = { left: 0.2, top: 0.2, right: 0.8, bottom: 0.8 };
  const again = await bench.readAgain(region);
  letGo();
  await judging;
  expect(bench.takes[1]!.reading).toBe(again);
  expect(bench.takes[1]!.region).toEqual(region);
  expect(bench.takes.map(({ report }) => judgedBy(report!))).toEqual([
    TOLERANCES.at(-1)!.name,
    TOLERANCES.at(-1)!.name,
  ]);
});

test('a take that came in before another was read again is judged anew together with that', async () => {
  const before: string[] = [];
  const bench = watch.session(() => ({
    ...watch.engine(),
    rejudge: async (report, { earlierTakes = [] }) => {
      before.push(`${report.reading.frame.name} after ${earlierTakes.map(({ samples }) => samples)}`);
      return report;
    },
    read: async (frames, { region, ...options }, run) => ({
      ...(await watch.engine().read(frames, options, run)),
      samples: `${frames[0]!.name} from ${region?.left ?? 0}` as never,
    }),
  }));
  await bench.read([file('a.png')]);
  const next = bench.read([file('b.png')], { done: [] });
  await bench.readAgain({ left: 0.2, top: 0, right: 1, bottom: 1 });
  await next;
  await expect.poll(() => before).toEqual(['a.png after ', 'b.png after a.png from 0.2']);
  before.length = 0;
  // the newest has none after it
  await bench.readAgain({ left: 0.3, top: 0, right: 1, bottom: 1 });
  await expect.poll(() => bench.progress).toBeNull();
  expect(before).toEqual([]);
});

test('answers outlive a frame that fails, and go with their moves when these are advised anew', async () => {
  const bench = watch.session(watch.engineWithMoves);
  await bench.read([file('a.png')]);
  bench.answer(1, { kind: 'done' });
  await bench.readNext([file('bad.txt')]).catch(() => {});
  expect(bench.answers).toEqual([null, { kind: 'done' }]);
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(bench.answers).toEqual([{ kind: 'done' }]);
  bench.answer(0, null);
  expect(bench.hasAnswers).toBe(false);
});

test('what was foretold for a take stays as it was when that was shot, whatever is judged anew or meanwhile', async () => {
  const bench = watch.session(watch.engineWithMoves);
  await bench.read([file('a.png')]);
  const kinds = (moves: readonly { readonly kind: string }[] | undefined) => moves?.map(({ kind }) => kind);
  bench.answer(0, { kind: 'done' });
  const { held, letGo } = heldBack();
  watch.held = { ...watch.held, read: held };
  const next = bench.readNext([file('b.png')]);
  await expect.poll(() => watch.calls).toContain('read b.png');
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  letGo();
  await next;
  const [first, second] = bench.takes;
  expect(first!.foretold).toBeNull();
  // judged anew, the first take advises one move where two were told
  expect(kinds(first!.reading.moves)).toEqual(['lamp-distance']);
  expect(kinds(second!.foretold?.moves)).toEqual(['slide-lamp', 'lamp-distance']);
  expect(toldBefore(bench.takes, first!.id)).toBe(second!.foretold);
  await bench.readAgain({ left: 0, top: 0, right: 0.5, bottom: 1 });
  await bench.judgeBy({ tolerance: TOLERANCES[0]! });
  expect(bench.takes[1]!.foretold).toBe(second!.foretold);
  await bench.read([file('c.png')]);
  expect(bench.takes[2]!.foretold).toBeNull();
  expect(toldBefore(bench.takes, second!.id)).toBeNull();
});

test('a note stays with its take when takes are judged anew', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png')]);
  bench.note('take-1', 'sheet ironed');
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(bench.takes.map(({ note }) => note)).toEqual(['sheet ironed', '']);
});
