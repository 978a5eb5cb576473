import { expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { ResponseDesk } from '../../src/screen/response-desk.ts';
import { KeptResponses } from '../../src/sources/kept-responses.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';

const response = responseOf(toneCurve(1.3), { camera: 'Model A' });
const files = ['shot-10.jpg', 'shot-9.jpg', 'shot-8.jpg'].map((name) => new File([name], name));

function desk(readBracket: EngineClient['readBracket'], isFull = false) {
  const held = new Map<string, string>();
  const storage = {
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, text: string) => {
      if (isFull) throw new Error('no room');
      held.set(key, text);
    },
    removeItem: (key: string) => void held.delete(key),
  };
  const kept = new KeptResponses(() => storage);
  return {
    desk: new ResponseDesk(
      () => ({ readBracket, dispose() {} }),
      () => {},
      kept,
    ),
    kept,
  };
}

test('ResponseDesk.recover(files, steps) asks in the order of names, keeps what comes, and goes on using it', async () => {
  const asked: unknown[] = [];
  const { desk: its, kept } = desk(async (frames, options) => {
    asked.push(
      frames.map(({ name }) => name),
      options,
    );
    return response;
  });
  expect(await its.recover(files, '0, −1, −2')).toEqual({ response, isUsed: false });
  expect(asked).toEqual([['shot-8.jpg', 'shot-9.jpg', 'shot-10.jpg'], { stops: [0, -1, -2] }]);
  expect(kept.of('Model A')).toEqual({ response, isUsed: false });
  its.use(response, true);
  expect(kept.used()).toEqual([response]);
  expect((await its.recover(files, ''))?.isUsed).toBe(true);
  expect(its.shownFor('Model A')?.response).toEqual(response);
  its.forget('Model A');
  expect([its.shownFor('Model A'), kept.of('Model A')]).toEqual([null, null]);
});

test('ResponseDesk shows what was recovered last where the frame is of another camera', async () => {
  const { desk: its } = desk(async () => response);
  await its.recover(files, '');
  expect(its.shownFor('Model B')?.response).toBe(response);
});

test('ResponseDesk says what went wrong, and of what was stopped nothing', async () => {
  const wrong = desk(async () => {
    throw new EngineError('bad-bracket', 'Two frames only.');
  }).desk;
  expect(await wrong.recover(files, '')).toBe(null);
  expect([wrong.trouble, wrong.progress]).toEqual(['Two frames only.', null]);
  expect(await wrong.recover(files, 'a few')).toBe(null);
  expect(wrong.trouble).toContain('“a few” is no list of stops');
  const stopped = desk(async () => {
    throw new EngineError('cancelled', 'stopped');
  }).desk;
  await stopped.recover(files, '');
  expect(stopped.trouble).toBe(null);
});

test('ResponseDesk goes on with a response that can’t be kept, and says so', async () => {
  const { desk: its } = desk(async () => response, true);
  expect(await its.recover(files, '')).toEqual({ response, isUsed: false });
  expect(its.trouble).toMatch(/can be used now, but not kept/);
  expect(its.shownFor('Model A')?.response).toBe(response);
});

test('ResponseDesk keeps of a camera without a name that there is a response, and not that it is gone by', async () => {
  const unnamed = { ...response, camera: null };
  const { desk: its, kept } = desk(async () => unnamed);
  await its.recover(files, '');
  its.use(unnamed, true);
  expect(kept.of(null)).toEqual({ response: unnamed, isUsed: false });
  expect((await its.recover(files, ''))?.isUsed).toBe(false);
});

test('ResponseDesk.recover() that takes another’s place is not ended by what that one leaves behind', async () => {
  const waiting: { end: () => void; fail: (error: Error) => void }[] = [];
  const { desk: its } = desk(
    () =>
      new Promise((resolve, reject) => {
        waiting.push({ end: () => resolve(response), fail: reject });
      }),
  );
  const moment = () => new Promise((resolve) => setTimeout(resolve, 0));
  const first = its.recover(files, '');
  await moment();
  const second = its.recover(files, '');
  await moment();
  waiting[0]!.fail(new EngineError('cancelled', 'stopped'));
  expect(await first).toBe(null);
  expect(its.progress).not.toBeNull();
  waiting[1]!.end();
  expect((await second)?.response).toBe(response);
  expect(its.progress).toBeNull();
});
