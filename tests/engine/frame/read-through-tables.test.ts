import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { srgbEncode } from '../../../src/engine/colour/srgb-curve.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { readThroughTables } from '../../../src/engine/frame/read-through-tables.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import type { Platform } from '../../../src/engine/intake/platform.ts';
import { invertMatrix3, transformVector3, type Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { nodePlatform } from '../../node-platform.ts';
import { CHANNELS, chunk, join, noiseSamples, pngFile } from '../intake/png-bytes.ts';
import { type TableRecipe, tableProfile } from '../intake/table-profile.ts';

/** Colours of a device's three lights; they add up to the connection space's white. */
const MIX = [0.5, 0.3342, 0.13, 0.27, 0.67, 0.06, 0.02, 0.1049, 0.7] as const;

function mixed([r = 0, g = r, b = r]: readonly number[]): Vector3 {
  return transformVector3(MIX, [r, g, b]);
}

/** A straight mixture in Lab: what tables interpolate exactly. */
function labOf([r = 0, g = r, b = r]: readonly number[]): Vector3 {
  return [30 * r + 60 * g + 10 * b, 40 * (r - g), 35 * (g - b)];
}

/** Source: CIE 15, the inverse of L*a*b*, as remembered. */
function xyzOfLab([lightness, a, b]: Vector3): Vector3 {
  const y = (lightness + 16) / 116;
  const back = (t: number) => (t > 6 / 29 ? t ** 3 : (3 * 36 * (t - 4 / 29)) / 841);
  return [0.9642 * back(y + a / 500), back(y), 0.8249 * back(y - b / 200)];
}

const RECIPES: readonly (TableRecipe & { readonly xyzAt: (device: readonly number[]) => Vector3 })[] = [
  { major: 2, connection: 'XYZ ', exponent: 2.2, colourAt: mixed, xyzAt: mixed },
  { major: 4, connection: 'XYZ ', exponent: 1.8, colourAt: mixed, xyzAt: mixed, nodes: 5 },
  { major: 2, connection: 'Lab ', exponent: 1.1, colourAt: labOf, xyzAt: (rgb) => xyzOfLab(labOf(rgb)) },
  {
    major: 4,
    connection: 'Lab ',
    exponent: 0.9,
    colourAt: labOf,
    xyzAt: (rgb) => xyzOfLab(labOf(rgb)),
    nodes: 9,
  },
];

function pngWith(
  profile: Uint8Array,
  depth: 8 | 16,
  colourType: number,
  samples: ArrayLike<number>,
  widthPx: number,
) {
  return pngFile({
    widthPx,
    heightPx: samples.length / CHANNELS[colourType]! / widthPx,
    depth,
    colourType,
    samples,
    chunks: [chunk('iCCP', join(Buffer.from('any\0\0', 'latin1'), deflateSync(profile)))],
  });
}

async function opened(bytes: Uint8Array, platform: Platform = nodePlatform) {
  return readThroughTables(await decodeImage(bytes, platform), platform);
}

/** How far the light that is read lies from the known function, as a share of white, over all pixels. */
async function worstError(recipe: (typeof RECIPES)[number], depth: 8 | 16): Promise<number> {
  const samples = noiseSamples(64 * 48 * 3, depth);
  const stored = await opened(pngWith(tableProfile(recipe), depth, 2, samples, 64));
  const { frame, colourProfile } = linearise(stored);
  expect(colourProfile).toBe('Tables by hand');
  expect(frame.light).toBe('display-decoded');
  const toD65 = bradfordMatrix([0.9642 / 2.7891, 1 / 2.7891], D65);
  const { red, green, blue } = frame.lightAtCode;
  const peak = 1 / greatest(recipe);
  let worst = 0;
  for (let at = 0; at < samples.length; at += 3) {
    const device = [0, 1, 2].map((i) => (samples[at + i]! / (2 ** depth - 1)) ** recipe.exponent);
    const wanted = transformVector3(toD65, recipe.xyzAt(device));
    const read = transformVector3(frame.toXyz, [
      red[frame.samples[at]!]!,
      green[frame.samples[at + 1]!]!,
      blue[frame.samples[at + 2]!]!,
    ]);
    for (const i of [0, 1, 2] as const) worst = Math.max(worst, Math.abs(read[i] - wanted[i] * peak));
  }
  return worst;
}

/** These recipes' own white is the brightest that any channel gets. */
function greatest({ xyzAt }: (typeof RECIPES)[number]): number {
  return xyzAt([1, 1, 1])[1];
}

test('readThroughTables(stored) reads tables of both versions, by XYZ and by Lab, as the function that filled them', async () => {
  for (const recipe of RECIPES) {
    for (const depth of [8, 16] as const) {
      const worst = await worstError(recipe, depth);
      console.log(
        `measured: version ${recipe.major}, ${recipe.connection.trim()}, ${depth} bits: light within ${worst.toExponential(1)} of white`,
      );
      expect(worst).toBeLessThan(1e-4);
    }
  }
});

test('readThroughTables(stored) agrees with a library that goes by the same tables itself', async () => {
  for (const recipe of RECIPES.filter(({ major }) => major === 2)) {
    // near grey, so that nothing leaves sRGB; from a quarter of the codes up, where one code is a small part of the light
    const samples = noiseSamples(40 * 40 * 3, 8).map(
      (code, i, all) => 64 + Math.floor((all[i - (i % 3)]! * 180) / 255) + (code >> 5),
    );
    const png = pngWith(tableProfile(recipe), 8, 2, samples, 40);
    const shown = await sharp(png).toColourspace('srgb').raw().toBuffer();
    const { frame } = linearise(await opened(png));
    const toSrgb = invertMatrix3(rgbToXyzMatrix(SRGB.primaries, SRGB.white));
    const { red, green, blue } = frame.lightAtCode;
    const white = greatest(recipe);
    let worst = 0;
    for (let at = 0; at < samples.length; at += 3) {
      const [r, g, b] = [0, 1, 2].map((i) => frame.samples[at + i]!);
      const xyz = transformVector3(frame.toXyz, [red[r!]!, green[g!]!, blue[b!]!]);
      transformVector3(toSrgb, xyz).forEach((light, i) => {
        worst = Math.max(worst, Math.abs(255 * srgbEncode(light * white) - shown[at + i]!));
      });
    }
    console.log(
      `measured: ${recipe.connection.trim()} tables against the library's sRGB: within ${worst.toFixed(2)} of 255 codes`,
    );
    expect(worst).toBeLessThan(1);
  }
});

test('readThroughTables(stored) keeps a grey picture grey, with its alpha', async () => {
  const grey: TableRecipe = { major: 2, connection: 'XYZ ', channels: 1, exponent: 2, colourAt: mixed };
  const samples = noiseSamples(40 * 30 * 2, 8);
  for (const recipe of [grey, RECIPES[0]!]) {
    const stored = await opened(pngWith(tableProfile(recipe), 8, 4, samples, 40));
    expect(stored.channels).toBe(2);
    for (let at = 0; at < samples.length; at += 2) {
      const wanted = (samples[at]! / 255) ** recipe.exponent;
      expect(Math.abs(stored.samples[at]! / 65535 - wanted)).toBeLessThan(1e-4);
      expect(stored.samples[at + 1]).toBe(samples[at + 1]! * 257);
    }
  }
});

test('readThroughTables(stored) marks what was clipped and blocked in the file, and keeps its steps and bits', async () => {
  const samples = noiseSamples(32 * 32 * 3, 8).map((code) => Math.min(250, Math.max(5, code)));
  samples.set([255, 90, 90], 0);
  samples.set([0, 90, 90], 3);
  samples.set([255, 0, 90], 6);
  const stored = await opened(pngWith(tableProfile(RECIPES[0]!), 8, 2, samples, 32));
  const { extremes, lightAtCode, bitsPerSample } = stored.throughTables!;
  expect([...extremes.subarray(0, 4)]).toEqual([1, 2, 3, 0]);
  expect(extremes.slice(3).every((mark) => mark === 0)).toBe(true);
  expect(bitsPerSample).toBe(8);
  expect(stored.bitsPerSample).toBe(16);
  expect(lightAtCode.green.length).toBe(256);
  expect(Math.abs(lightAtCode.green[186]! - (186 / 255) ** 2.2)).toBeLessThan(1e-4);
});

test('readThroughTables(stored) tells how far it is and leaves other pictures as they are', async () => {
  const told: number[] = [];
  const samples = noiseSamples(400 * 400 * 3, 8);
  const decoded = await decodeImage(pngWith(tableProfile(RECIPES[0]!), 8, 2, samples, 400), nodePlatform);
  await readThroughTables(decoded, nodePlatform, (fraction) => told.push(fraction));
  expect(told.length).toBeGreaterThan(3);
  expect(told.at(-1)).toBe(1);
  expect(told).toEqual(told.toSorted((a, b) => a - b));
  const plain = { ...decoded, iccProfile: null };
  expect(await readThroughTables(plain, nodePlatform)).toBe(plain);
});

test('readThroughTables(stored) says why tables are not gone by, and sRGB is assumed', async () => {
  const samples = noiseSamples(20 * 20 * 3, 8);
  const profile = tableProfile(RECIPES[0]!);
  const says = async (bytes: Uint8Array, platform: Platform) => {
    const { frame, colourProfile } = linearise(await opened(pngWith(bytes, 8, 2, samples, 20), platform));
    expect(colourProfile).toBe('sRGB (assumed)');
    return frame.lightSays;
  };
  const { openProfileTables: _without, ...bare } = nodePlatform;
  expect(await says(profile, bare)).toContain('“Tables by hand” holds tables only, which are not read here');
  const dark = tableProfile({ ...RECIPES[0]!, colourAt: () => [0, 0, 0] });
  expect(await says(dark, nodePlatform)).toContain('which give no white above black');
  const bent = profile.slice();
  const at = Buffer.from(bent).indexOf('mft2', 0, 'latin1');
  bent[at + 10] = 200; // nodes that there is no room for
  expect(await says(bent, nodePlatform)).toContain('which are damaged');
  const grey: TableRecipe = { major: 2, connection: 'XYZ ', channels: 1, exponent: 2, colourAt: mixed };
  expect(await says(tableProfile(grey), nodePlatform)).toContain('for grey, and the picture is in colour');
});

test('readThroughTables(stored) answers bent tables within moments, and reads on after them', async () => {
  const { uniform } = seededRandom(9);
  const samples = noiseSamples(20 * 20 * 3, 8);
  const whole = RECIPES.map((recipe) => tableProfile({ ...recipe, nodes: 3 }));
  const outcomes = new Map<string, number>();
  let slowest = 0;
  for (let i = 0; i < 240; i++) {
    const bent = whole[i % whole.length]!.slice();
    // most hits where tables are described, before their many numbers
    const table = Buffer.from(bent).indexOf(i % 2 ? 'mAB ' : 'mft2', 0, 'latin1');
    const steering = table < 0 ? 132 : table;
    for (let hit = 0; hit <= i % 3; hit++)
      bent[i % 4 ? steering + Math.floor(uniform() * 60) : Math.floor(uniform() * bent.length)] =
        uniform() * 256;
    const started = performance.now();
    const stored = await opened(pngWith(bent, 8, 2, samples, 20));
    slowest = Math.max(slowest, performance.now() - started);
    const outcome = stored.throughTables ? 'read' : (stored.tablesNotRead ?? 'another kind of profile');
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    for (const light of Object.values(linearise(stored).frame.lightAtCode))
      expect(light.every(Number.isFinite)).toBe(true);
  }
  console.log(`measured: bent tables: ${JSON.stringify([...outcomes])}, slowest ${slowest.toFixed(0)} ms`);
  expect(slowest).toBeLessThan(2000);
  expect(outcomes.get('read')).toBeGreaterThan(20);
  expect(outcomes.get('which are damaged')).toBeGreaterThan(20);
  expect((await opened(pngWith(whole[0]!, 8, 2, samples, 20))).throughTables).toBeDefined();
});

test('readThroughTables(stored) refuses where the module that reads tables can’t be had', async () => {
  const samples = noiseSamples(20 * 20 * 3, 8);
  const offline: Platform = {
    ...nodePlatform,
    openProfileTables: () => Promise.reject(new Error('offline')),
  };
  const error = await opened(pngWith(tableProfile(RECIPES[0]!), 8, 2, samples, 20), offline).catch((e) => e);
  expect(error).toBeInstanceOf(EngineError);
  expect(error.code).toBe('worker-lost');
  expect(error.message).toContain('could not be fetched');
});
