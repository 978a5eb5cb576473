import { gunzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { EVEN } from '../../src/engine/aim.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import { readBracket } from '../../src/engine/read-bracket.ts';
import type { FrameReport } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { cellsCsv } from '../../src/screen/cells-csv.ts';
import { plotFiles } from '../../src/screen/plot-files.ts';
import { plotPage } from '../../src/screen/plot-pages.ts';
import { recordFacts } from '../../src/screen/words/record-facts.ts';
import { writeJob } from '../../src/takes/job-file.ts';
import { jobParts } from '../../src/takes/job-of-takes.ts';
import { partsOf } from '../../src/takes/shelved-take.ts';
import { toJson } from '../../src/takes/structured-json.ts';
import { type FullTake, withTake } from '../../src/takes/take.ts';
import { personalJpeg, personalPng, personalWordsIn } from '../engine/export/personal-frame.ts';
import { readBytes } from '../engine/known-frames.ts';
import { nodePlatform } from '../node-platform.ts';
import { toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';

const rendered = (bits: 8 | 16, seed: number, widthPx = 48, heightPx = 32) =>
  renderFrame(randomField(7, { spreadEv: 0.6 }).field, {
    ...{ widthPx, heightPx, bits, curve: 'srgb', electronsAtFull: 30_000, seed },
  });

const takeOf = (report: FrameReport, name: string, bytes: Uint8Array): FullTake =>
  withTake([], {
    ...{
      id: 'take-1',
      report,
      done: null,
      foretold: null,
      setup: UNKNOWN_SETUP,
      measuredMm: [],
      region: undefined,
    },
    ...{
      secondFrames: [],
      shotAt: 0,
      judgedBy: { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE, after: [] },
    },
    frames: [{ name, blob: new File([bytes as Uint8Array<ArrayBuffer>], name) }],
  })[0] as FullTake;

/** Everything that is shown, saved or kept of a frame, as text or bytes by what it is. */
async function allOf(name: string, bytes: Uint8Array): Promise<Record<string, string | Uint8Array>> {
  const report = await readBytes(bytes, name);
  const { reading } = report;
  const take = takeOf(report, name, bytes);
  const profile = makeProfile(report);
  const plotted = { take, takes: [take], tolerance: DEFAULT_TOLERANCE, unit: 'cm' } as const;
  const record = (each: FullTake) => recordFacts(each, [take], 'cm');
  const facts = { tolerance: DEFAULT_TOLERANCE, aim: EVEN, answers: [], profile };
  const job = await writeJob(jobParts([take], facts, record, async () => take));
  return {
    reading: JSON.stringify(reading),
    profile: JSON.stringify(profile),
    record: JSON.stringify(record(take)),
    csv: cellsCsv(reading),
    job: gunzipSync(await job.arrayBuffer()),
    kept: JSON.stringify(toJson(partsOf(take, true))),
    report: JSON.stringify(toJson(structuredClone(report))),
    plots: plotFiles(plotted)
      .map((file) => JSON.stringify(plotPage(file, plotted)))
      .join(),
  };
}

test.each([
  ['a JPEG', 'blank.jpg', () => personalJpeg(rendered(8, 1, 64, 48))],
  ['a PNG', 'blank.png', async () => personalPng(toPng(rendered(16, 2)))],
])(
  'nothing that is shown, saved or kept of %s tells who shot it, where, or with which single camera',
  async (_, name, make) => {
    const bytes = await make();
    expect(personalWordsIn(bytes).length).toBeGreaterThan(10);
    for (const [what, said] of Object.entries(await allOf(name, bytes))) {
      const as = typeof said === 'string' ? Buffer.from(said) : said;
      expect(as.length, what).toBeGreaterThan(100);
      expect(personalWordsIn(as), what).toEqual([]);
      const text = Buffer.from(as).toString('latin1');
      // a place would be told as degrees, in one of its forms, and a zone as hours
      expect(text, what).not.toMatch(/48\.137\d*|48,8\.|11\.575\d*|11,34\.|\+05:45/);
      expect(text, what).not.toMatch(/"\w*(gps|latitude|serial|owner|artist|copyright)\w*"/i);
    }
  },
);

test('what was asked for is told: the exposure, and when it was shot', async () => {
  const { reading } = await readBytes(await personalJpeg(rendered(8, 1)));
  const exposure = {
    seconds: 1 / 125,
    fNumber: 5.6,
    iso: 100,
    focalLengthMm: 85,
    takenAt: '2026-03-01T10:20:30',
  };
  expect(reading.frame.exposure).toEqual(exposure);
});

test('a response names the model of a camera, and no single one', async () => {
  const dim = (stops: number) => {
    const { field } = randomField(7, { spreadEv: 0.6 });
    const darker = (x: number, y: number) =>
      field(x, y).map((light) => light * 2 ** stops) as [number, number, number];
    return renderFrame(darker, {
      ...{ widthPx: 192, heightPx: 128, bits: 8, curve: 'srgb', electronsAtFull: 30_000, seed: 3 },
    });
  };
  const sources = await Promise.all(
    [0, -1, -2, -3].map(async (stops) => ({ name: `${stops}.jpg`, bytes: await personalJpeg(dim(stops)) })),
  );
  const response = await readBracket(sources, { stops: [0, -1, -2, -3] }, nodePlatform);
  expect(response.camera).toBe('Camera 5');
  expect(personalWordsIn(Buffer.from(JSON.stringify(response)))).toEqual([]);
});
