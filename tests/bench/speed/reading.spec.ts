import { expect, test } from '@playwright/test';
import { type BenchFile, dngFile, jpegFile, pngFile, tiffFile } from './bench-files.ts';
import { openEngine, timeDecoding, timeReading } from './engine-beside-page.ts';
import { type NativeTool, NativeTools } from './native-tools.ts';
import { type Aim, type Contenders, interleaved, ROUNDS, report } from './timed-rounds.ts';

interface Row {
  readonly file: BenchFile;
  readonly against: readonly NativeTool[];
  readonly aims: readonly Aim[];
}

const WHOLE = 'whole reading';
const LOOK = 'first look, coarse';
const PIXELS = 'bytes to measured cells';
const LATER = 'fits, findings and moves';
const BROWSER = {
  jpeg: 'the browser decoding alone',
  libraw: 'the browser’s LibRaw unpacking alone',
} as const;
const NATIVE: Readonly<Record<NativeTool, string>> = {
  'libjpeg-turbo': 'libjpeg-turbo decoding alone',
  opencv: 'OpenCV reading blocks',
  libvips: 'libvips reading blocks',
  libraw: 'LibRaw unpacking alone',
};
const JUDGING: Aim = { of: LATER, atMost: 400 };

const jpeg = (file: BenchFile): Row => ({
  file,
  against: ['libjpeg-turbo', 'opencv', 'libvips'],
  aims: [
    { of: WHOLE, against: BROWSER.jpeg, atMost: 1.6 },
    { of: WHOLE, against: NATIVE.opencv, atMost: 0.7 },
    { of: LOOK, against: BROWSER.jpeg, atMost: 0.8 },
    JUDGING,
  ],
});
const deep = (file: BenchFile, atMost: number): Row => ({
  file,
  against: ['opencv', 'libvips'],
  aims: [{ of: WHOLE, against: NATIVE.opencv, atMost }, JUDGING],
});
const raw = (file: BenchFile): Row => ({
  file,
  against: ['libraw'],
  aims: [
    { of: WHOLE, against: BROWSER.libraw, atMost: 1.3 },
    { of: WHOLE, against: NATIVE.libraw, atMost: 1.3 },
    JUDGING,
  ],
});

const ROWS = [24, 60].flatMap((megapixels) => [
  jpeg(jpegFile(megapixels, '4:4:4')),
  jpeg(jpegFile(megapixels, '4:2:0')),
  deep(tiffFile(megapixels, 'none'), 1),
  deep(tiffFile(megapixels, 'lzw'), 1.7),
  deep(tiffFile(megapixels, 'deflate'), 2.9),
  deep(pngFile(megapixels), 1.1),
  raw(dngFile(megapixels)),
]);

let tools: NativeTools;
test.beforeAll(async () => {
  tools = await NativeTools.start();
});
test.afterAll(() => tools.stop());

for (const { file, against, aims } of ROWS)
  test(`the whole reading of ${file.name}`, async ({ page }) => {
    const path = await file.path();
    await openEngine(page, path);
    const browserWork = file.kind === 'jpeg' ? 'jpeg' : file.kind === 'dng' ? 'libraw' : null;
    const contenders: Contenders = {
      [WHOLE]: async () => partsOf(await timeReading(page, path)),
      ...(browserWork && { [BROWSER[browserWork]]: () => timeDecoding(page, browserWork) }),
    };
    for (const tool of against)
      if (tools.has(tool)) contenders[NATIVE[tool]] = async () => (await tools.time(tool, path)).ms;
    const times = await interleaved(contenders);
    report(file.name, times, aims);
    expect(times[WHOLE]).toHaveLength(ROUNDS);
  });

/** The whole and its parts, each phase until the next one is told of. */
function partsOf({ whole, begins }: Awaited<ReturnType<typeof timeReading>>): Record<string, number> {
  const { look, decoding = 0, averaging, fitting, measuring } = begins;
  return {
    [WHOLE]: whole,
    ...(look !== undefined && { [LOOK]: look }),
    [PIXELS]: fitting!,
    [LATER]: whole - fitting!,
    '… opening': decoding,
    '… decoding': averaging! - decoding,
    '… averaging, region, fine structure': fitting! - averaging!,
    '… fitting surfaces': measuring! - fitting!,
    '… measuring ±, causes and moves': whole - measuring!,
  };
}
