import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { largeJpeg } from './large-frames.ts';

const ROUNDS = 7;
const FRAMES = [
  { name: '24 megapixels, JPEG 4:4:4', widthPx: 6000, heightPx: 4000, chroma: '4:4:4' },
  { name: '24 megapixels, JPEG 4:2:0', widthPx: 6000, heightPx: 4000, chroma: '4:2:0' },
] as const;

const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!;

for (const { name, widthPx, heightPx, chroma } of FRAMES) {
  test(`the whole reading of ${name}, against its decoding alone`, async ({ page }) => {
    const bytes = readFileSync(await largeJpeg(widthPx, heightPx, chroma));
    await page.route('**/bench-frame.jpg', (route) =>
      route.fulfill({ body: bytes, contentType: 'image/jpeg' }),
    );
    await page.goto('./');
    await page.waitForFunction(() => customElements.get('evenfield-bench') !== undefined);
    const times = await page.evaluate(async (rounds) => {
      const blob = await (await fetch('./bench-frame.jpg')).blob();
      const data = await blob.arrayBuffer();
      const bench = document.querySelector('evenfield-bench') as unknown as EvenfieldBench;
      const whole: number[] = [];
      const decoding: number[] = [];
      for (let round = 0; round <= rounds; round++) {
        const start = performance.now();
        await bench.read(new File([blob], 'frame.jpg'));
        const between = performance.now();
        await new Promise((done) => setTimeout(done, 1500)); // the report is drawn meanwhile, and not timed
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
        const end = performance.now();
        if (round === 0) continue; // to warm up
        whole.push(between - start);
        decoding.push(end - startOfDecoding);
      }
      return { whole, decoding };
    }, ROUNDS);
    const [whole, decoding] = [median(times.whole), median(times.decoding)];
    console.log(
      `measured: ${name}: whole reading ${whole.toFixed(0)} ms (${Math.min(...times.whole).toFixed(0)} to ` +
        `${Math.max(...times.whole).toFixed(0)}), decoding alone ${decoding.toFixed(0)} ms, ratio ${(whole / decoding).toFixed(2)}`,
    );
    mkdirSync('reports', { recursive: true });
    writeFileSync(
      `reports/bench-${widthPx}x${heightPx}-${chroma.replaceAll(':', '')}.json`,
      JSON.stringify(times),
    );
    expect(times.whole).toHaveLength(ROUNDS);
  });
}
