import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from '@playwright/test';
import { largeDng } from '../synthetic/large-dng.ts';
import { SAMPLES } from '../synthetic/samples/sample-files.ts';
import { sampleTruth } from '../synthetic/samples/sample-truth.ts';
import { type InstalledPackage, installPackage } from './installed-package.ts';

const ROOT = new URL('../../', import.meta.url).pathname;
const SAMPLE = 'one-side-dark-and-cool.png';

let installed: InstalledPackage;
test.beforeAll(() => {
  installed = installPackage();
});
test.afterAll(() => installed.remove());

/** Runs the example as its user would, in a project that has nothing but the package. */
const spreads = (...files: string[]) =>
  spawnSync(process.execPath, [join(installed.folder, 'dist/package/examples/spread.mjs'), ...files], {
    cwd: installed.project,
    encoding: 'utf8',
  });

test('in Node the example prints the spread of a 16-bit PNG, and refuses a JPEG by name', () => {
  const { status, stdout, stderr } = spreads(join(ROOT, 'samples', SAMPLE));
  expect(stderr).toBe('');
  expect(status).toBe(0);
  const [, spread, plusMinus] = /^\S+: ([\d.]+) ± ([\d.]+) stop, even: no$/m.exec(stdout)!;
  const sample = SAMPLES.find(({ file }) => file === SAMPLE)!;
  const truth = sampleTruth(sample).figures.spreadEv;
  console.log(`measured: by the package in Node ${spread} ± ${plusMinus} EV, of ${truth.toFixed(4)}`);
  expect(Math.abs(Number(spread) - truth)).toBeLessThan(0.01);

  const refused = spreads(join(ROOT, 'samples', 'clipped.jpg'));
  expect(refused.status).toBe(1);
  expect(refused.stderr).toContain(
    'clipped.jpg: unsupported-file: This is a JPEG picture, and Node decodes none',
  );
});

test('in Node it reads raw files and tables of colour by the modules that it brings', async () => {
  const engine = (await import(
    pathToFileURL(join(installed.folder, 'dist/package/engine.js')).href
  )) as typeof import('../../src/package/engine-in-node.ts');
  const { nodePlatform, readFrame, UNKNOWN_SETUP, DEFAULT_TOLERANCE } = engine;
  const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };
  const source = { name: 'blank.dng', bytes: largeDng(1200, 800) };
  const { reading } = await readFrame([source], judgedBy, nodePlatform());
  console.log(`measured: a raw frame in Node ${reading.falloff.spreadEv.toFixed(4)} EV (1.2 as shot)`);
  expect(Math.abs(reading.falloff.spreadEv - 1.2)).toBeLessThan(0.02);
  expect(await nodePlatform().openProfileTables!(new Uint8Array(200))).toBeNull(); // asked, and no profile
});

test('the licences of what is built in go with it, and its own README, whose links lead somewhere', () => {
  const packed = join(installed.folder, 'dist/package');
  for (const folder of readdirSync(join(ROOT, 'workers/notices'))) {
    const notice = readFileSync(join(ROOT, 'workers/notices', folder, 'NOTICE.txt'), 'utf8');
    expect(readFileSync(join(packed, folder, 'NOTICE.txt'), 'utf8')).toBe(notice);
  }
  const { readme } = JSON.parse(readFileSync(join(packed, 'custom-elements.json'), 'utf8')) as {
    readme: string;
  };
  const at = join(installed.folder, readme);
  const links = Array.from(
    readFileSync(at, 'utf8').matchAll(/\]\((?!https?:)([^)#]+)/g),
    ([, link]) => link!,
  );
  expect(links.length).toBeGreaterThan(2);
  expect(links.filter((link) => !existsSync(join(at, '..', link)))).toEqual([]);
  expect(existsSync(join(installed.folder, 'src/engine/FIGURES.md'))).toBe(true);
});

const WHO_USES_THE_ELEMENT = `
import { EvenfieldBench, type Profile, type Reading, type Setup, type Tolerance, type Move, type Take, type CameraResponse, type EngineErrorCode } from 'evenfield';
const bench: EvenfieldBench = document.querySelector('evenfield-bench')!;
const made: EvenfieldBench = new EvenfieldBench();
bench.addEventListener('evenfield-reading', ({ detail }) => {
  const reading: Reading = detail;
  const moves: readonly Move[] = reading.moves;
  console.log(reading.falloff.spreadEv, moves.length);
});
bench.addEventListener('evenfield-error', ({ detail: { code } }) => {
  const told: EngineErrorCode = code;
  console.log(told);
});
const setup: Setup = { ...bench.setup, frameWidthMm: 900 };
bench.setup = setup;
const tolerance: Tolerance = made.tolerance;
const takes: readonly Take[] = bench.takes;
export async function job(file: File): Promise<Blob> {
  const reading = await bench.read(file, { done: [] });
  const profile: Profile = await bench.profile(reading, { reference: 'mean' });
  const response: CameraResponse = await bench.readBracket([file, file, file], { stops: [0, 1, 2] });
  return bench.correct(file, profile, { format: 'png', response });
}
// @ts-expect-error there is no such option
void bench.read('a.png', { don: [] });
// @ts-expect-error what was read is not for others to change
bench.takes = [];
console.log(tolerance, takes);
`;

const WHO_USES_THE_ENGINE = `
import { correctFrame, EngineError, makeProfile, nodePlatform, readFrame, rejudge, DEFAULT_TOLERANCE, UNKNOWN_SETUP, type FrameReport, type Platform } from 'evenfield/engine';
const platform: Platform = nodePlatform({ decodePicture: async () => null });
export async function job(bytes: Uint8Array): Promise<number> {
  const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };
  const report: FrameReport = await readFrame([{ name: 'a.png', bytes }], judgedBy, platform);
  const stricter = rejudge(report, { ...judgedBy, tolerance: { ...DEFAULT_TOLERANCE, limit: 0.1 } });
  const { parts } = await correctFrame({ name: 'b.png', bytes }, makeProfile(stricter), {}, platform);
  return parts.length;
}
export const codeOf = (error: unknown) => (error instanceof EngineError ? error.code : null);
// @ts-expect-error a setup is needed
void readFrame([], { tolerance: DEFAULT_TOLERANCE }, platform);
`;

for (const [who, text, lib] of [
  ['element', WHO_USES_THE_ELEMENT, ['ES2022', 'DOM', 'DOM.Iterable']],
  ['engine', WHO_USES_THE_ENGINE, ['ES2022']],
] as const)
  test(`who uses the ${who} is told by its types alone, with no other package`, () => {
    const { project } = installed;
    writeFileSync(join(project, `${who}.ts`), text);
    const compilerOptions = {
      ...{ target: 'ES2022', lib, types: [], strict: true, noEmit: true, skipLibCheck: false },
      ...{ module: 'NodeNext', moduleResolution: 'NodeNext', exactOptionalPropertyTypes: true },
    };
    writeFileSync(join(project, 'package.json'), JSON.stringify({ type: 'module' }));
    const config = join(project, `tsconfig.${who}.json`);
    writeFileSync(config, JSON.stringify({ compilerOptions, files: [`${who}.ts`] }));
    const compiler = join(ROOT, 'node_modules/typescript/bin/tsc');
    const { stdout, status } = spawnSync(process.execPath, [compiler, '-p', config], { encoding: 'utf8' });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });
