import { rmSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { jpegFile } from './bench-files.ts';
import {
  makeProfile,
  openEngine,
  timeCorrecting,
  timeDecoding,
  timeReading,
  timeWriting,
} from './engine-beside-page.ts';
import { NativeTools } from './native-tools.ts';
import { type Contenders, interleaved, median, ROUNDS, report } from './timed-rounds.ts';

const WHOLE = 'corrected to a 16-bit TIFF';
const WRITTEN = 'corrected and written';
const TWO = 'two at once';
const WRITING = 'writing the TIFF alone';
const NUMPY = 'numpy, decoded by OpenCV';
const OPENCV = 'OpenCV';

test('24 megapixels corrected from a JPEG to a 16-bit TIFF, against numpy, OpenCV and writing alone', async ({
  page,
}) => {
  const file = jpegFile(24, '4:4:4');
  const path = await file.path();
  const tools = await NativeTools.start();
  await openEngine(page, path);
  await timeReading(page, path);
  const profile = await makeProfile(page);
  const out = '.bench/corrected.raw';
  const contenders: Contenders = {
    [WHOLE]: () => timeCorrecting(page, 1),
    [WRITING]: () => timeWriting(page),
    [TWO]: () => timeCorrecting(page, 2),
    'the browser decoding alone': () => timeDecoding(page, 'jpeg'),
  };
  for (const [name, by] of [
    [NUMPY, 'numpy'],
    [OPENCV, 'opencv'],
  ] as const)
    if (tools.has('opencv'))
      contenders[name] = async () => {
        const { ms, parts } = await tools.time('correct', path, { profile, by, out });
        return { [name]: ms - parts!.writing!, [`${name}, written`]: ms };
      };
  const times = await interleaved(contenders);
  rmSync(out, { force: true });
  tools.stop();
  times[WRITTEN] = times[WHOLE]!.map((ms, round) => ms + times[WRITING]![round]!);
  report(`${file.name} corrected`, times, [
    { of: WHOLE, against: NUMPY, atMost: 0.8 },
    { of: WHOLE, against: OPENCV, atMost: 0.8 },
    { of: WRITTEN, against: `${NUMPY}, written`, atMost: 0.8 },
    { of: WRITTEN, against: `${OPENCV}, written`, atMost: 0.8 },
  ]);
  const scaling = times[TWO]!.map((ms, round) => (2 * times[WHOLE]![round]!) / ms);
  report(`${file.name}, two corrected at once`, { 'work done in the time of one': scaling }, [], '×');
  console.log(
    `    ${median(scaling) >= 1.6 ? 'within' : 'BEYOND'} the aim: two at once scale to ${median(scaling).toFixed(2)} ×, aim at least 1.6`,
  );
  expect(times[WHOLE]).toHaveLength(ROUNDS);
});
