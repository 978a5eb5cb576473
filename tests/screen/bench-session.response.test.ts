import { expect, test } from 'vitest';
import type { FrameReport, ReadOptions } from '../../src/engine/read-frame.ts';
import type { CameraResponse } from '../../src/engine/response/camera-response.ts';
import type { BenchEngine } from '../../src/screen/bench-engine.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { SessionWatch } from './session-watch.ts';

const response = responseOf(toneCurve(1.3), { camera: 'Model A' });
const file = (name: string) => new File([name], name);

/** A session whose engine notes which responses it is asked to go by, and goes by them. */
function watched() {
  const watch = new SessionWatch();
  const asked: Pick<ReadOptions, 'response' | 'responses'>[] = [];
  const engine = (): BenchEngine => {
    const plain = watch.engine();
    return {
      ...plain,
      read: async (frames, options, run) => {
        const { response: own, responses } = options;
        asked.push({ ...(own && { response: own }), ...(responses && { responses }) });
        const report = await plain.read(frames, options, run);
        return {
          ...report,
          readBy: { camera: 'Model A', response: own ?? responses?.[0] ?? null },
        } as FrameReport;
      },
    };
  };
  return { session: watch.session(engine), asked };
}

const usedBy = (of: CameraResponse | null, { session }: ReturnType<typeof watched>) =>
  expect(session.newest!.report.readBy.response).toBe(of);

test('read(frame, { response }) reads by it, and so are the next take and the same one in another part', async () => {
  const its = watched();
  const { session, asked } = its;
  await session.read([file('a.jpg')], { response });
  await session.readAgain({ left: 0, top: 0, right: 0.5, bottom: 1 });
  await session.readNext([file('b.jpg')]);
  expect(asked).toEqual([{ response }, { response }, { response }]);
  usedBy(response, its);
});

test('readAgain(undefined, null) reads the same frame by none, and by another where that is asked', async () => {
  const its = watched();
  const { session, asked } = its;
  await session.read([file('a.jpg')], { response });
  await session.readAgain(undefined, null);
  usedBy(null, its);
  await session.readAgain(undefined, response);
  usedBy(response, its);
  expect(session.takes).toHaveLength(1);
  expect(asked).toEqual([{ response }, { responses: [] }, { response }]);
});

test('what the page keeps goes with files that it reads, and with nobody else’s', async () => {
  const { session, asked } = watched();
  await session.read([file('a.jpg')], {}, { responses: [response] });
  await session.read([file('b.jpg')]);
  expect(asked).toEqual([{ responses: [response] }, { responses: [] }]);
});
