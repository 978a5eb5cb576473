import sharp from 'sharp';
import { readHeifFacts } from '../../src/engine/intake/heif-facts.ts';
import { readWebpChunks } from '../../src/engine/intake/webp-chunks.ts';
import { avifWithProperty, box, nclx } from '../engine/intake/avif-with-property.ts';
import { SRGB_AS_TABLES } from '../engine/intake/srgb-as-tables.ts';
import { toPng } from '../synthetic/encode.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { dropFiles, expect, noteErrors, openBench, test, waitForVerdict } from './open-bench.ts';

/** A stop darker and a little cooler on the left. */
const FRAME = renderFrame((x) => [0.7 * 2 ** (x - 1), 0.7 * 2 ** (x - 1), 0.66 * 2 ** (0.9 * (x - 1))], {
  widthPx: 600,
  heightPx: 400,
  bits: 8,
  curve: 'srgb',
  electronsAtFull: 30_000,
  seed: 3,
});
const image = () => sharp(FRAME.samples as Uint8Array, { raw: { width: 600, height: 400, channels: 3 } });
test('a WebP, a turned AVIF and a file whose profile holds tables read as the plain PNG does; the module is fetched for the last alone', async ({
  page,
  watch,
}) => {
  const spreads: number[] = [];
  const read = async (name: string, type: string, bytes: Uint8Array) => {
    await openBench(page);
    await dropFiles(page, [{ name, type, bytes: Buffer.from(bytes) }]);
    await waitForVerdict(page);
    const reading = await page.evaluate(() => {
      const { takes } = document.querySelector('evenfield-bench')!;
      const { frame, falloff } = takes.at(-1)!.reading;
      return { ...frame, spreadEv: falloff.spreadEv, brightestX: falloff.brightestAt.x };
    });
    spreads.push(reading.spreadEv);
    return reading;
  };
  const plain = await read('plain.png', 'image/png', toPng(FRAME));
  expect(plain.colourProfile).toBe('sRGB (assumed)');

  const webp = await read('lossless.webp', 'image/webp', await image().webp({ lossless: true }).toBuffer());
  expect(webp.spreadEv).toBe(plain.spreadEv);

  const turned = { quality: 95, chromaSubsampling: '4:4:4', effort: 2 } as const;
  const avif = await image().withMetadata({ orientation: 6 }).avif(turned).toBuffer();
  const upright = await read('turned.avif', 'image/avif', avif);
  expect(upright).toMatchObject({ orientation: 6, widthPx: 400, heightPx: 600 });
  expect(Math.abs(upright.spreadEv - plain.spreadEv)).toBeLessThan(0.02);
  expect(upright.lightSays).toContain('leaves smooth light in steps');

  const isModule = (url: string) => /\/lcms[^/]*\.(wasm|js)$/.test(url);
  expect(watch.requests.filter(isModule)).toEqual([]);
  const tables = await read('tables.png', 'image/png', toPng(FRAME, { icc: SRGB_AS_TABLES }));
  expect(tables).toMatchObject({ colourProfile: 'As tables', bitsPerSample: 8 });
  expect(Math.abs(tables.spreadEv - plain.spreadEv)).toBeLessThan(0.001);
  expect(watch.requests.filter(isModule)).toHaveLength(2);
  console.log(
    `measured: spread as PNG, WebP, AVIF, by tables: ${spreads.map((ev) => ev.toFixed(4)).join(', ')} EV`,
  );
});

test('a HEIC that the browser does not show, and a file of 2 GB, are refused in plain words', async ({
  page,
}) => {
  await openBench(page);
  const errors = await noteErrors(page);
  // the boxes of one, around data that only another decoder would know
  const avif = await image().resize(96, 64).avif().toBuffer();
  const renamed = avif.toString('latin1').replaceAll('avif', 'heic').replaceAll('av01', 'hvc1');
  const heic = Buffer.from(renamed.replaceAll('av1C', 'hvcC'), 'latin1');
  await dropFiles(page, [{ name: 'telephone.heic', type: 'image/heic', bytes: heic }]);
  await expect(page.locator('evenfield-status').getByRole('alert')).toContainText(
    'does not decode HEIC pictures',
    { timeout: 20_000 },
  );
  expect((await errors()).map(({ code }) => code)).toEqual(['unsupported-file']);
  const started = Date.now();
  const huge = await page.evaluate(async () => {
    const piece = new Blob([new Uint8Array(1 << 24)]); // held once, by reference
    const blob = new Blob(Array.from({ length: 129 }, () => piece));
    const bench = document.querySelector('evenfield-bench')!;
    return bench.read(new File([blob], 'huge.tif')).then(
      () => 'read',
      (error: { code: string }) => error.code,
    );
  });
  expect(huge).toBe('too-large');
  console.log(`measured: 2 GB refused within ${Date.now() - started} ms`);
});

test('files laid bare are neither turned nor converted, even by a decoder that does both unasked', async ({
  page,
}) => {
  const codes = Buffer.alloc(96 * 64 * 3);
  for (let i = 0; i < 96 * 64; i++) codes.set([i % 96 < 48 ? 200 : 60, i < 96 * 32 ? 180 : 90, 70], 3 * i);
  const picture = () => sharp(codes, { raw: { width: 96, height: 64, channels: 3 } });
  const quality = { quality: 95, chromaSubsampling: '4:4:4' } as const;
  const avif = new Uint8Array(await picture().avif(quality).toBuffer());
  const mirrored = new Uint8Array(await picture().withMetadata({ orientation: 5 }).avif(quality).toBuffer());
  const stated = avifWithProperty(avif, box('colr', nclx(9, 8)));
  const plainWebp = await picture().webp({ lossless: true }).toBuffer();
  const noted = picture().withMetadata({ orientation: 6 }).keepIccProfile().webp({ lossless: true });
  const shown = (bytes: Uint8Array, type: string) =>
    page.evaluate(
      async ({ list, type }) => {
        const bitmap = await createImageBitmap(new Blob([Uint8Array.from(list)], { type }));
        const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
        context.drawImage(bitmap, 0, 0);
        const { width, height } = bitmap;
        const at = (x: number, y: number) => [...context.getImageData(x, y, 1, 1).data];
        return { width, height, corners: [at(3, 3), at(width - 4, 3), at(3, height - 4)] };
      },
      { list: [...bytes], type },
    );
  await openBench(page);
  const wanted = await shown(avif, 'image/avif');
  expect(wanted).toMatchObject({ width: 96, height: 64 });
  for (const file of [mirrored, stated]) {
    expect(await shown(file, 'image/avif')).not.toEqual(wanted);
    expect(await shown(readHeifFacts(file, 'AVIF').bare, 'image/avif')).toEqual(wanted);
  }
  const { bare } = readWebpChunks(new Uint8Array(await noted.toBuffer()));
  expect(await shown(bare, 'image/webp')).toEqual(await shown(plainWebp, 'image/webp'));
});
