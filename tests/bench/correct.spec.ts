import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import sharp from 'sharp';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { largeJpeg } from './large-frames.ts';

const ROUNDS = 5;
const [WIDTH_PX, HEIGHT_PX] = [6000, 4000];

/** Seconds by numpy, where that is installed, for the same arithmetic on codes already decoded; else `null`. */
async function byNumpy(
  jpegPath: string,
  profile: unknown,
): Promise<{ arithmetic: number; writing: number } | null> {
  if (spawnSync('python3', ['-c', 'import numpy']).status !== 0) return null;
  const [codes, profilePath, out] = ['.bench/codes.raw', '.bench/profile.json', '.bench/corrected.raw'];
  writeFileSync(codes, await sharp(jpegPath).removeAlpha().raw().toBuffer());
  writeFileSync(profilePath, JSON.stringify(profile));
  const script = ['tests/bench/numpy-correction.py', codes, WIDTH_PX, HEIGHT_PX, profilePath, out, 3].map(
    String,
  );
  const run = spawnSync('python3', script, { encoding: 'utf8' });
  for (const path of [codes, profilePath, out]) if (existsSync(path)) rmSync(path);
  if (run.status !== 0) throw new Error(run.stderr);
  return JSON.parse(run.stdout) as { arithmetic: number; writing: number };
}

test('24 megapixels corrected from a JPEG to a 16-bit TIFF, against numpy and against writing alone', async ({
  page,
}) => {
  const path = await largeJpeg(WIDTH_PX, HEIGHT_PX, '4:4:4');
  const bytes = readFileSync(path);
  await page.route('**/bench-frame.jpg', (route) =>
    route.fulfill({ body: bytes, contentType: 'image/jpeg' }),
  );
  await page.goto('./');
  await page.waitForFunction(() => customElements.get('evenfield-bench') !== undefined);
  const { times, profile, size } = await page.evaluate(async (rounds) => {
    const blob = await (await fetch('./bench-frame.jpg')).blob();
    const data = await blob.arrayBuffer();
    const bench = document.querySelector('evenfield-bench') as unknown as EvenfieldBench;
    const frame = new File([blob], 'frame.jpg');
    const made = await bench.profile(await bench.read(frame));
    const timed = { whole: [] as number[], decoding: [] as number[], writing: [] as number[] };
    let bytesWritten = 0;
    for (let round = 0; round <= rounds; round++) {
      const start = performance.now();
      const corrected = await bench.correct(frame, made);
      const whole = performance.now() - start;
      const startOfDecoding = performance.now();
      const decoder = new ImageDecoder({
        data: data.slice(0),
        type: 'image/jpeg',
        colorSpaceConversion: 'none',
      });
      const { image } = await decoder.decode({ frameIndex: 0, completeFramesOnly: true });
      const pixels = new Uint8Array(image.codedWidth * image.codedHeight * 4);
      await image.copyTo(pixels, { format: 'RGBA' });
      image.close();
      decoder.close();
      const decoding = performance.now() - startOfDecoding;
      const samples = await corrected.arrayBuffer();
      const startOfWriting = performance.now();
      const folder = await navigator.storage.getDirectory();
      const writable = await (await folder.getFileHandle('corrected.tif', { create: true })).createWritable();
      await writable.write(new Blob([samples]));
      await writable.close();
      const writing = performance.now() - startOfWriting;
      await folder.removeEntry('corrected.tif');
      bytesWritten = corrected.size;
      if (round === 0) continue; // to warm up
      timed.whole.push(whole);
      timed.decoding.push(decoding);
      timed.writing.push(writing);
    }
    return { times: timed, profile: made, size: bytesWritten };
  }, ROUNDS);
  const least = (values: readonly number[]) => Math.min(...values);
  const [whole, decoding, writing] = [least(times.whole), least(times.decoding), least(times.writing)];
  console.log(
    `measured: 24 megapixels corrected to a ${(size / 1e6).toFixed(0)} MB TIFF: whole ${whole.toFixed(0)} ms, of it decoding ` +
      `${decoding.toFixed(0)} ms; writing it to a folder ${writing.toFixed(0)} ms more`,
  );
  const numpy = await byNumpy(path, profile);
  if (!numpy) console.log('skipped: numpy is not installed');
  else
    console.log(
      `measured: numpy, the arithmetic alone ${(1000 * numpy.arithmetic).toFixed(0)} ms, writing ${(1000 * numpy.writing).toFixed(0)} ms; ` +
        `correcting without decoding takes ${((whole - decoding) / 1000 / numpy.arithmetic).toFixed(2)} × its arithmetic (aim: 1.0)`,
    );
  expect(times.whole).toHaveLength(ROUNDS);
});
