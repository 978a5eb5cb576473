import { expect, test } from 'vitest';
import { TREATMENTS } from '../../src/engine/correct/correct-light.ts';
import { CorrectionRun } from '../../src/screen/correction-run.ts';
import type { FullTake } from '../../src/takes/take.ts';
import type { CorrectBlobOptions } from '../../workers/engine-api.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';
import { FolderInMemory } from '../sources/folder-in-memory.ts';

const shot = { model: 'Camera 5', subjectDistanceM: 2.4 };

test('CorrectionRun.correctAll() hands the blank’s camera and focus on, whatever is corrected', async () => {
  const options: (CorrectBlobOptions | undefined)[] = [];
  const engine = {
    profile: async () => profileOf(latticeOf(2, 2, () => [0, 0, 0])),
    openToCorrect: async () => ({ known: { shot, widthPx: 60, heightPx: 40 } }),
    differences: async () => [],
    previewCorrection: async () => ({ flags: [] }),
    correct: async (_file: unknown, _profile: unknown, wished?: CorrectBlobOptions) => {
      options.push(wished);
      return { blob: new Blob(['light']), extension: 'tif', clippedPixels: 0, flags: [], background: null };
    },
    dispose: () => {},
  } as unknown as EngineClient;
  for (const treat of TREATMENTS) {
    const run = new CorrectionRun(
      () => engine,
      () => {},
    );
    run.correctBy({
      report: { readBy: { response: null } },
      frames: [{ name: 'blank.png', blob: new Blob() }],
    } as unknown as FullTake);
    run.wish({ treat });
    run.add([new File([], 'a.jpg')]);
    await new Promise((resolve) => setTimeout(resolve, 5));
    await run.correctAll(() => engine, new FolderInMemory());
    expect(run.outcomes).toMatchObject([{ state: 'done' }]);
  }
  expect(options.map((each) => [each?.treat, each?.blankFacts])).toEqual(
    TREATMENTS.map((treat) => [treat, shot]),
  );
});
