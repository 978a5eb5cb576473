import { beforeEach, describe, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { SetSamples } from '../../src/engine/lamps/set-samples.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import type { FrameReport, JudgeOptions, ReadOptions } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { TOLERANCES } from '../../src/engine/tolerances.ts';
import type { BenchReadOptions } from '../../src/screen/bench-element.ts';
import type { BenchEngine } from '../../src/screen/bench-engine.ts';
import { BenchSession } from '../../src/screen/bench-session.ts';
import { readingFixture } from '../plots/reading-fixture.ts';
import { file, heldBack } from './session-watch.ts';

const LIGHTS_OFF: BenchReadOptions = { role: 'lamp-off' };
const SLID = { kind: 'shifted', rightFrameWidths: 0.33, downFrameWidths: 0 } as const;
const CLOSED = { kind: 'stopped-down', stops: 2 } as const;
const slid: BenchReadOptions = { role: 'lens-check', lensCheck: SLID };
const closed: BenchReadOptions = { role: 'lens-check', lensCheck: CLOSED };
const FOUND = { left: 0.1, top: 0.2, right: 0.9, bottom: 0.8 };

/** What the engine was asked, each with the second frames that the take was judged with. */
let asked: string[] = [];
let told: string[] = [];
let readOptions: ReadOptions[] = [];
let held = { read: Promise.resolve(), rejudge: Promise.resolve() };

/** Its samples hold nothing but the length of the file's name, so that one can tell whose they are. */
const samplesOf = (name: string) => ({ levelEv: name.length }) as SetSamples;
const tell = ({ secondFrames = [], tolerance }: JudgeOptions) =>
  `with [${secondFrames.map(({ role, samples }) => `${role.kind} ${samples.levelEv}`)}] by ${tolerance.limit}`;

function reportOf(name: string, options: ReadOptions | JudgeOptions): FrameReport {
  const reading = readingFixture({ columns: 2, rows: 2 });
  const isTurned = name.startsWith('turned');
  const frame = {
    ...reading.frame,
    name,
    sha256: name.split('.')[0]!,
    ...(isTurned && { widthPx: 800, heightPx: 1200 }),
  };
  const judged = { kind: 'cannot-tell', confidence: 1, ev: null, mired: null, at: null, says: tell(options) };
  return {
    reading: { ...reading, frame, region: FOUND, findings: [judged] },
    samples: samplesOf(name),
    readBy: { camera: null, response: null },
  } as unknown as FrameReport;
}

/** Files named "bad…" fail, those named "turned…" stand upright. */
function standIn(): BenchEngine {
  return {
    async read([frame], options, { signal, onProgress }) {
      const { name } = frame!;
      asked.push(`read ${name}`);
      readOptions.push(structuredClone(options)); // as it goes over to the worker
      onProgress?.('decoding', 0.5);
      await held.read;
      if (signal?.aborted) throw new EngineError('cancelled', 'stopped');
      if (name.startsWith('bad')) throw new EngineError('not-an-image', 'that is no picture');
      return reportOf(name, options);
    },
    async rejudge(report, options, { signal } = {}) {
      const { name } = report.reading.frame;
      const clone = structuredClone(options);
      asked.push(`judge ${name} ${tell(clone)}`);
      await held.rejudge;
      if (signal?.aborted) throw new EngineError('cancelled', 'stopped');
      return reportOf(name, clone);
    },
    async profile() {
      throw new EngineError('cannot-write', 'no gains');
    },
    dispose() {},
  };
}

const session = () =>
  new BenchSession(standIn, {
    reading: ({ frame, findings }) => told.push(`${frame.name} ${findings[0]!.says}`),
    progress() {},
    failure: ({ code, fileName }) => told.push(`${code} ${fileName}`),
    changed() {},
  });

const heldKinds = (bench: BenchSession) =>
  bench.takes.map(({ secondFrames }) => secondFrames.map(({ role, frame }) => `${role.kind} ${frame.name}`));

beforeEach(() => {
  [asked, told, readOptions] = [[], [], []];
  held = { read: Promise.resolve(), rejudge: Promise.resolve() };
});

describe('a second frame', () => {
  test('is read with its role in the take’s part of the frame, and its take is judged anew with it', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    const before = bench.takes[0]!;
    told = [];
    const reading = await bench.read([file('dark.png')], LIGHTS_OFF);
    expect(reading.frame.name).toBe('dark.png');
    expect(readOptions[1]).toMatchObject({ role: { kind: 'lamp-off' }, region: FOUND });
    expect(asked.slice(1)).toEqual(['read dark.png', 'judge blank.png with [lamp-off 8] by 0.3']);
    expect(bench.takes).toHaveLength(1);
    expect(bench.takes[0]).toMatchObject({ id: before.id, done: null, region: undefined });
    expect(bench.takes[0]!.reading).toBe(bench.takes[0]!.report!.reading);
    expect(bench.takes[0]!.reading.findings).not.toEqual(before.reading.findings);
    expect(told).toEqual(['blank.png with [lamp-off 8] by 0.3']);
    expect(bench.progress).toBeNull();
  });

  test('is read in a part of its own where that is named', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    const region = { left: 0.2, top: 0.2, right: 0.8, bottom: 0.8 };
    await bench.read([file('slid.png')], { ...slid, region });
    expect(readOptions[1]).toMatchObject({ role: SLID, region });
  });

  test('takes the place of an earlier one of its kind, and stands beside those of others', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    await bench.read([file('slid.png')], slid);
    await bench.read([file('closed.png')], closed);
    await bench.read([file('darker.png')], LIGHTS_OFF);
    expect(heldKinds(bench)).toEqual([
      ['shifted slid.png', 'stopped-down closed.png', 'lamp-off darker.png'],
    ]);
    expect(told.at(-1)).toMatch(/^blank\.png with \[shifted 8,stopped-down 10,lamp-off 10\]/);
  });

  test('asked for before its blank frame is read goes with that one', async () => {
    const bench = session();
    await Promise.all([bench.read([file('blank.png')]), bench.read([file('dark.png')], LIGHTS_OFF)]);
    expect(heldKinds(bench)).toEqual([['lamp-off dark.png']]);
  });

  test('without a blank one is refused, and so is one after moves; nothing is read or told', async () => {
    const bench = session();
    await expect(bench.read([file('dark.png')], LIGHTS_OFF)).rejects.toThrow(RangeError);
    await expect(bench.read([file('dark.png')], LIGHTS_OFF)).rejects.toThrow(/read that one first/);
    await expect(bench.read([file('dark.png')], { ...LIGHTS_OFF, done: [] })).rejects.toThrow(/"done"/);
    await expect(bench.read([file('dark.png')], { role: 'lens-check' })).rejects.toThrow(/"lensCheck"/);
    expect([asked, told, bench.failure, bench.progress]).toEqual([[], [], null, null]);
  });

  test.each([
    ['can’t be read', 'bad.png', 'not-an-image'],
    ['is of another shape', 'turned.png', 'unsupported-file'],
    ['is the blank one’s own file', 'blank.png', 'unsupported-file'],
  ])('that %s leaves everything as it was', async (_what, name, code) => {
    const bench = session();
    await bench.read([file('blank.png')]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    const before = bench.takes;
    await expect(bench.read([file(name)], LIGHTS_OFF)).rejects.toMatchObject({ code, fileName: name });
    expect(bench.takes).toBe(before);
    expect(bench.failure).toMatchObject({ code });
    expect(told.at(-1)).toBe(`${code} ${name}`);
  });

  test('that is cancelled while its take is judged anew leaves everything as it was', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    const before = bench.takes;
    const { held: judging, letGo } = heldBack();
    held.rejudge = judging;
    const reading = bench.read([file('dark.png')], LIGHTS_OFF);
    await expect.poll(() => asked).toHaveLength(3);
    bench.cancel();
    letGo();
    await expect(reading).rejects.toMatchObject({ code: 'cancelled' });
    expect(bench.takes).toBe(before);
  });
});

describe('second frames are kept', () => {
  test('when set-up or tolerance change, also while one is being read or judged', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    await bench.judgeBy({ setup: { ...UNKNOWN_SETUP, frameWidthMm: 420 } });
    expect(asked.at(-1)).toMatch(/^judge blank\.png with \[lamp-off 8\]/);

    const [reading, judging] = [heldBack(), heldBack()];
    held = { read: reading.held, rejudge: judging.held };
    const second = bench.read([file('slid.png')], slid);
    await expect.poll(() => asked.at(-1)).toBe('read slid.png');
    const settled = bench.judgeBy({ tolerance: { ...TOLERANCES[0]!, limit: 0.5 } });
    reading.letGo();
    await expect.poll(() => asked.at(-1)).toMatch(/lamp-off 8,shifted 8/);
    const last = bench.judgeBy({ tolerance: { ...TOLERANCES[0]!, limit: 0.7 } });
    judging.letGo();
    await Promise.all([second, settled, last]);
    expect(bench.takes[0]!.reading.findings[0]!.says).toBe('with [lamp-off 8,shifted 8] by 0.7');
    expect(bench.takes[0]!.setup.frameWidthMm).toBe(420);
  });

  test('when another part of the frame is read', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    await bench.readAgain({ left: 0, top: 0, right: 0.5, bottom: 1 });
    expect(heldKinds(bench)).toEqual([['lamp-off dark.png']]);
    expect(bench.takes[0]!.reading.findings[0]!.says).toMatch(/lamp-off 8/);
    expect(readOptions[2]).not.toHaveProperty('role');
  });

  const WARMER: Move = {
    ...{ kind: 'white-balance', miredShift: 5, duvShift: 0 },
    ...{ bringsEv: null, toward: null, caution: null },
  };

  test('the room’s light alone, where no more than the lights was moved', async () => {
    const bench = session();
    const stronger = { kind: 'balance-lamps', lamp: 0, stops: 1, bringsEv: null, toward: null } as const;
    await bench.read([file('blank.png')]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    await bench.read([file('slid.png')], slid);
    await bench.read([file('next.png')], { done: [{ ...stronger, caution: null }] });
    expect(heldKinds(bench)[1]).toEqual(['lamp-off dark.png']);
    expect(bench.takes[1]!.reading.findings[0]!.says).toMatch(/^with \[lamp-off 8\]/);
    await bench.leaveOut('lamp-off');
    expect(heldKinds(bench)).toEqual([['lamp-off dark.png', 'shifted slid.png'], []]);
  });

  test('by a next take of the same shape in which nothing was moved, and by no other', async () => {
    const bench = session();
    await bench.read([file('blank.png')]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    await bench.read([file('again.png')], { done: [] });
    expect(bench.takes[1]!.reading.findings[0]!.says).toMatch(/lamp-off 8/);
    await bench.read([file('moved.png')], { done: [WARMER] });
    expect(heldKinds(bench)[2]).toEqual([]);
    await bench.read([file('dark.png')], LIGHTS_OFF);
    await bench.read([file('turned.png')], { done: [] });
    await bench.read([file('new.png')]);
    expect(heldKinds(bench)).toEqual([
      ['lamp-off dark.png'],
      ['lamp-off dark.png'],
      ['lamp-off dark.png'],
      [],
      [],
    ]);
  });
});

test('leaveOut(kind) judges the newest take without that one, and keeps the others', async () => {
  const bench = session();
  await bench.read([file('blank.png')]);
  await bench.read([file('dark.png')], LIGHTS_OFF);
  await bench.read([file('slid.png')], slid);
  await bench.leaveOut('lamp-off');
  expect(heldKinds(bench)).toEqual([['shifted slid.png']]);
  expect(told.at(-1)).toMatch(/^blank\.png with \[shifted 8\]/);
  await bench.leaveOut('shifted');
  expect(told.at(-1)).toMatch(/^blank\.png with \[\]/);
});

test('a second frame is not to be lost unasked when the page is left', async () => {
  const bench = session();
  await bench.read([file('blank.png')]);
  expect(bench.isWorkedOn).toBe(false);
  await bench.read([file('dark.png')], LIGHTS_OFF);
  expect(bench.isWorkedOn).toBe(true);
  await bench.leaveOut('lamp-off');
  expect(bench.isWorkedOn).toBe(false);
});

test('one left out while the next is judged stays out', async () => {
  const bench = session();
  await bench.read([file('blank.png')]);
  await bench.read([file('dark.png')], LIGHTS_OFF);
  const { held: judging, letGo } = heldBack();
  held.rejudge = judging;
  const second = bench.read([file('slid.png')], slid);
  await expect.poll(() => asked.at(-1)).toMatch(/lamp-off 8,shifted 8/);
  const left = bench.leaveOut('lamp-off');
  letGo();
  await Promise.all([second, left]);
  expect(heldKinds(bench)).toEqual([['shifted slid.png']]);
  expect(bench.takes[0]!.reading.findings[0]!.says).toMatch(/^with \[shifted 8\]/);
});
