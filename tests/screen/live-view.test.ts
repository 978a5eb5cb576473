import { expect, test } from 'vitest';
import type { LiveReading } from '../../src/engine/live/live-reading.ts';
import type { Judgement } from '../../src/engine/reading.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { LiveView, type LiveWishes } from '../../src/screen/live-view.ts';
import { CameraFailure, type OpenedCamera } from '../../src/sources/live-camera.ts';
import type { LiveLoss } from '../../workers/live-client.ts';
import type { LiveStep, ReportStep } from '../../workers/live-feed.ts';

function stepOf(even: Judgement, isMoving = false, scatterEv: number | null = 0.01): LiveStep {
  const reading = { verdict: { even, neutral: 'no', exposed: 'yes' }, isMoving, scatterEv } as LiveReading;
  return { reading, widthPx: 1920, heightPx: 1080, picturesPerSecond: 30, busyShare: 0.4 };
}

/** A view whose camera and worker are played by the test. */
function playedView(open?: LiveWishes['open']) {
  const played = {
    log: [] as string[],
    report: (_: LiveStep) => {},
    end: () => {},
    fail: (_?: Error) => {},
    lost: () => {},
    die: (_: LiveLoss) => {},
    starts: true,
    hold: (): Promise<Blob | null> => Promise.resolve(played.picture),
    picture: new Blob(['picture'], { type: 'image/jpeg' }) as Blob | null,
  };
  const camera = (name: string): OpenedCamera => ({
    ...{ name, id: name, widthPx: 1920, heightPx: 1080, exposure: 'held', whiteBalance: 'not-told' },
    pictures: {} as ReadableStream<VideoFrame>,
    stop: () => played.log.push(`stopped ${name}`),
  });
  const view = new LiveView({
    open:
      open ??
      (async (id, whenLost) => {
        played.lost = whenLost;
        return camera(id ?? 'usual');
      }),
    names: async () => [{ id: 'usual', name: 'usual' }],
    startClient: (whenLost) => {
      if (!played.starts) throw new Error('no worker');
      played.die = whenLost;
      return {
        follow: (_: ReadableStream<VideoFrame>, report: ReportStep) => {
          played.report = report;
          return new Promise<void>((resolve, reject) => {
            played.end = resolve;
            played.fail = (error = new Error('no pictures')) => reject(error);
          });
        },
        judgeBy: ({ name }) => played.log.push(`judged by ${name}`),
        hold: () => played.hold(),
        dispose: () => played.log.push('worker ended'),
      };
    },
    sound: { ready: async () => {}, tell: ({ even }) => played.log.push(`heard ${even}`) },
    now: () => new Date(2026, 0, 2, 3, 4, 5),
  });
  return { view, played };
}

const settled = () => new Promise((resolve) => setTimeout(resolve));

test('a camera is looked through, and each picture is shown', async () => {
  const { view, played } = playedView();
  await view.look();
  expect([view.camera?.name, view.cameras.length, view.isOpening]).toEqual(['usual', 1, false]);
  played.report(stepOf('no'));
  expect(view.step?.picturesPerSecond).toBe(30);
});

test('what it is judged by goes to the worker, before and while it looks', async () => {
  const { view, played } = playedView();
  view.judgeBy(DEFAULT_TOLERANCE);
  await view.look();
  view.judgeBy({ ...DEFAULT_TOLERANCE, name: 'another' });
  expect(played.log).toEqual([`judged by ${DEFAULT_TOLERANCE.name}`, 'judged by another']);
});

test.each([
  ['refused', 'refused'],
  ['no-camera', 'no-camera'],
  ['in-use', 'in-use'],
] as const)('a camera that is %s is told so', async (_, trouble) => {
  const { view } = playedView(() => Promise.reject(new CameraFailure(trouble)));
  await view.look();
  expect([view.trouble, view.camera, view.isOpening]).toEqual([trouble, null, false]);
});

test.each([
  ['pulled out', (played: ReturnType<typeof playedView>['played']) => played.lost(), 'lost'],
  ['out of pictures', (played: ReturnType<typeof playedView>['played']) => played.end(), 'lost'],
  ['of no readable pictures', (played: ReturnType<typeof playedView>['played']) => played.fail(), 'failed'],
  [
    'whose pictures the browser alters',
    (played: ReturnType<typeof playedView>['played']) =>
      played.fail(Object.assign(new Error(), { name: 'altered' })),
    'altered',
  ],
  ['of a dead worker', (played: ReturnType<typeof playedView>['played']) => played.die('died'), 'died'],
  ['of a worker that hung', (played: ReturnType<typeof playedView>['played']) => played.die('hung'), 'hung'],
] as const)('a camera %s is let go and told', async (_, happens, trouble) => {
  const { view, played } = playedView();
  await view.look();
  happens(played);
  await settled();
  expect([view.trouble, view.camera]).toEqual([trouble, null]);
  expect(played.log).toEqual(['stopped usual', 'worker ended']);
});

test('one that opens after it was stopped is let go at once', async () => {
  let opened = (_: OpenedCamera) => {};
  const { view } = playedView(
    () =>
      new Promise((resolve) => {
        opened = resolve;
      }),
  );
  const looking = view.look();
  view.stop();
  const log: string[] = [];
  opened({ stop: () => log.push('stopped') } as unknown as OpenedCamera);
  await looking;
  expect([view.camera, log]).toEqual([null, ['stopped']]);
});

test('pictures of a camera that was stopped change nothing any more', async () => {
  const { view, played } = playedView();
  await view.look();
  const late = played.report;
  view.stop();
  late(stepOf('yes'));
  expect(view.step).toBeNull();
});

test('a picture that is asked for is not waited for once looking is stopped', async () => {
  const { view, played } = playedView();
  await view.look();
  played.hold = () => new Promise(() => {});
  const held = view.hold();
  view.stop();
  expect(await held).toBeNull();
});

test('a worker that does not start lets the camera go', async () => {
  const { view, played } = playedView();
  played.starts = false;
  await view.look();
  expect([view.trouble, view.camera, played.log]).toEqual(['failed', null, ['stopped usual']]);
});

test('it is heard once when the light becomes even, not while it moves or settles, and again after it was not', async () => {
  const { view, played } = playedView();
  await view.look();
  played.report(stepOf('yes')); // not asked for yet
  played.report(stepOf('no'));
  await view.hear(true);
  const heard = () => played.log.filter((line) => line === 'heard yes').length;
  const steps: [step: LiveStep, heard: number][] = [
    [stepOf('no'), 0],
    [stepOf('yes', true), 0],
    [stepOf('yes', false, null), 0],
    [stepOf('yes'), 1],
    [stepOf('yes'), 1],
    [stepOf('too-close-to-say'), 1],
    [stepOf('yes'), 2],
  ];
  for (const [step, expected] of steps) {
    played.report(step);
    expect(heard()).toBe(expected);
  }
});

test('the present picture is held under the time, and none where there is none any more', async () => {
  const { view, played } = playedView();
  expect(await view.hold()).toBeNull();
  await view.look();
  const held = await view.hold();
  expect([held?.name, held?.type]).toEqual(['held-03-04-05.jpg', 'image/jpeg']);
  played.picture = null;
  expect(await view.hold()).toBeNull();
});

test('after its worker was lost it looks again, and what the lost one still tells is nothing to it', async () => {
  const { view, played } = playedView();
  await view.look();
  const { die, report } = played;
  die('hung');
  await view.look();
  expect([view.trouble, view.camera?.name]).toEqual([null, 'usual']);
  die('died');
  report(stepOf('yes'));
  expect([view.trouble, view.step]).toEqual([null, null]);
  played.report(stepOf('no'));
  expect(view.step).not.toBeNull();
});
