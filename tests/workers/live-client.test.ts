import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { LiveClient, LONGEST_PICTURE_MS } from '../../workers/live-client.ts';
import { type FakeWorker, fakeWorker } from './fake-worker.ts';

const never = () => new Promise<never>(() => {});
const NO_PICTURES = { next: never };
let client: LiveClient | null = null;

beforeEach(() => void vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] }));
afterEach(() => {
  client?.dispose();
  vi.useRealTimers();
});

/** A client that follows a feed in such a worker, and what it told of its loss. */
function following(api: object): { worker: FakeWorker; losses: string[] } {
  const losses: string[] = [];
  const worker = fakeWorker(api);
  client = new LiveClient(
    (loss) => losses.push(loss),
    () => worker,
  );
  void client.follow(NO_PICTURES, () => {});
  return { worker, losses };
}

/** Time passes, and messages get through meanwhile. */
async function pass(ms: number): Promise<void> {
  for (let passed = 0; passed < ms; passed += 2000) {
    vi.advanceTimersByTime(2000);
    await new Promise((through) => setTimeout(through, 2));
  }
}

test('LiveClient ends a worker that hangs at a picture, and tells so once', async () => {
  const { worker, losses } = following({ followByAsking: never, answers: never });
  await pass(LONGEST_PICTURE_MS - 4000);
  expect([losses, worker.terminated]).toEqual([[], false]);
  await pass(8000);
  expect([losses, worker.terminated]).toEqual([['hung'], true]);
  await pass(10 * LONGEST_PICTURE_MS);
  expect(losses).toEqual(['hung']);
});

test('LiveClient lets a worker be that waits for a camera which pauses, however long', async () => {
  const { worker, losses } = following({ followByAsking: never, answers: () => true });
  await pass(30 * LONGEST_PICTURE_MS);
  expect([losses, worker.terminated]).toEqual([[], false]);
});

test.each(['error', 'messageerror'])('LiveClient tells once of a worker that died by %s', async (type) => {
  const { worker, losses } = following({ followByAsking: never, answers: never });
  worker.die(new Event(type));
  worker.die(new Event(type));
  expect([losses, worker.terminated]).toEqual([['died'], true]);
  await pass(2 * LONGEST_PICTURE_MS);
  expect(losses).toEqual(['died']);
});

test('LiveClient tells nothing of a worker that was done with', async () => {
  const { worker, losses } = following({ followByAsking: never, answers: never });
  client!.dispose();
  expect(worker.terminated).toBe(true);
  await pass(2 * LONGEST_PICTURE_MS);
  expect(losses).toEqual([]);
});
