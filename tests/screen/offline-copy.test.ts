import { readdirSync, readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { OfflineCopy } from '../../src/screen/offline-copy.ts';
import { OFFLINE_WORDS } from '../../src/screen/words/offline-words.ts';

/** A worker of the copy that answers as told. */
function answering(answer: object): ServiceWorker {
  return {
    postMessage: (asked: unknown, [port]: MessagePort[]) => port!.postMessage({ ...answer, asked }),
    addEventListener: () => {},
  } as unknown as ServiceWorker;
}

/** One that answers only when told to. */
function silent() {
  const ports: MessagePort[] = [];
  const worker = {
    postMessage: (_: unknown, [port]: MessagePort[]) => ports.push(port!),
    addEventListener: () => {},
  } as unknown as ServiceWorker;
  return {
    worker,
    answer: (given: object) => ports.shift()!.postMessage(given),
    hangUp: () => ports.map((port) => port.close()),
  };
}

interface Found {
  readonly installing?: ServiceWorker;
  readonly waiting?: ServiceWorker;
  readonly active?: ServiceWorker;
}

function copyWith(found: Found | Error) {
  const went: string[] = [];
  const registered = { installing: null, waiting: null, active: null, addEventListener: () => {}, ...found };
  const container = {
    register: () => (found instanceof Error ? Promise.reject(found) : Promise.resolve(registered)),
  } as unknown as ServiceWorkerContainer;
  const copy = new OfflineCopy({
    container,
    address: 'https://set.example/offline.js',
    script: 'https://set.example/assets/index.js',
    goTo: (address) => went.push(address),
  });
  return { copy, went };
}

const whole = answering({ isWhole: true, others: 0, id: 'page-1' });

const cases: [string, Found | Error, OfflineCopy['state']][] = [
  ['a first copy that is being fetched', { installing: answering({}) }, 'fetching'],
  ['a whole copy', { active: whole }, 'ready'],
  [
    'a copy that lacks files and can’t be mended',
    { active: answering({ isWhole: false, others: 0 }) },
    'failed',
  ],
  ['a newer one beside it', { active: whole, waiting: answering({}) }, 'newer'],
  [
    'a newer one beside a copy that lacks files',
    { active: answering({ isWhole: false, others: 0 }), waiting: answering({}) },
    'newer',
  ],
  ['none, as it could not be fetched', {}, 'failed'],
  ['a refusal by the browser', new Error('SecurityError'), 'failed'],
];
for (const [name, found, state] of cases)
  test(`begin() tells of ${name}`, async () => {
    const { copy } = copyWith(found);
    let changes = 0;
    copy.addEventListener('change', () => changes++);
    await copy.begin();
    expect(copy.state).toBe(state);
    expect(changes).toBe(1);
    expect(OFFLINE_WORDS[state]).toMatch(/without a network/);
  });

test('begin() tells where a browser or an address allows no copy', async () => {
  const copy = new OfflineCopy({ container: null, address: '', script: '', goTo: () => {} });
  await copy.begin();
  expect(copy.state).toBe('impossible');
});

test('takeNewer() goes by the page’s own id where no other page is open', async () => {
  const { copy, went } = copyWith({ active: whole, waiting: answering({}) });
  await copy.begin();
  await copy.takeNewer();
  expect(went).toEqual(['./?newer=page-1']);
});

test('takeNewer() stays where another page is open, and says so', async () => {
  const { copy, went } = copyWith({
    active: answering({ isWhole: true, others: 1, id: 'page-1' }),
    waiting: answering({}),
  });
  await copy.begin();
  await copy.takeNewer();
  expect(went).toEqual([]);
  expect(copy.state).toBe('newer-blocked');
});

test('a worker that does not answer is told of after ten seconds, and heard if it answers later', async () => {
  vi.useFakeTimers();
  const { worker, answer } = silent();
  const { copy } = copyWith({ active: worker });
  const begun = copy.begin();
  await vi.advanceTimersByTimeAsync(9_900);
  expect(copy.state).toBe('unknown');
  await vi.advanceTimersByTimeAsync(200);
  await begun;
  vi.useRealTimers();
  expect(copy.state).toBe('silent');
  answer({ isWhole: true, others: 0, id: 'page-1' });
  await vi.waitFor(() => expect(copy.state).toBe('ready'));
});

test('a newer version is offered before the copy of this one has answered, and asking for it comes to an end', async () => {
  vi.useFakeTimers();
  const { worker, answer, hangUp } = silent();
  const { copy, went } = copyWith({ active: worker, waiting: answering({}) });
  void copy.begin();
  await vi.advanceTimersByTimeAsync(0);
  expect(copy.state).toBe('newer');
  const asked = copy.takeNewer();
  await vi.advanceTimersByTimeAsync(10_100);
  await asked;
  vi.useRealTimers();
  expect(copy.state).toBe('newer-silent');
  // what comes too late sends nobody elsewhere
  answer({ isWhole: true, others: 0, id: 'page-1' });
  answer({ isWhole: true, others: 0, id: 'page-1' });
  await new Promise((resolve) => setTimeout(resolve, 20));
  hangUp();
  expect(went).toEqual([]);
  expect(copy.state).toBe('newer-silent');
});

test('the tool’s own page alone asks for a copy: a page that embeds the element gets none', () => {
  const folder = new URL('../../src/', import.meta.url);
  const asking = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .filter((path) => /serviceWorker|OfflineCopy\(/.test(readFileSync(new URL(path, folder), 'utf8')));
  expect(asking).toEqual(['screen/tool-page.ts']);
});
