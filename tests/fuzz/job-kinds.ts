import { createHash } from 'node:crypto';
import { gunzipSync, gzipSync } from 'node:zlib';
import { EVEN } from '../../src/engine/aim.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';

import { rejudge } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../../src/engine/tolerances.ts';
import { cellsCsv } from '../../src/screen/cells-csv.ts';
import { recordFacts } from '../../src/screen/words/record-facts.ts';
import { JobRefusal, readJob, writeJob } from '../../src/takes/job-file.ts';
import { jobOfParts, jobParts } from '../../src/takes/job-of-takes.ts';
import { reportOfParts, takeOfParts } from '../../src/takes/shelved-take.ts';
import { judgedAnew } from '../../src/takes/take.ts';
import { readBytes } from '../engine/known-frames.ts';
import { gapsOf } from '../engine/reading-gaps.ts';
import { toPng } from '../synthetic/encode.ts';
import { wholeTake } from '../takes/whole-take.ts';
import { bentBytes } from './bend-bytes.ts';
import { bentValue } from './bend-value.ts';
import type { InputKind } from './run-inputs.ts';
import { smallFrame } from './seed-files.ts';

/** One take of cells too few for a set, and one with a set. */
const takes = [
  wholeTake('take-1', 'bare', 5000),
  wholeTake('take-2', 'grid cloth', 9000, await readBytes(toPng(smallFrame(8, 4, 64, 48)))),
];
const FACTS = {
  ...{ tolerance: DEFAULT_TOLERANCE, aim: EVEN, profile: makeProfile(takes[0]!.report) },
  answers: [{ kind: 'done' }, null],
} as const;

const plainParts: unknown[] = [];
for await (const part of jobParts(
  takes,
  FACTS,
  (take) => recordFacts(take, takes, 'cm'),
  async (take) => takes.find(({ id }) => id === take.id)!,
))
  plainParts.push(part);
const packed = new Uint8Array(await (await writeJob(plainParts)).arrayBuffer());
const lines = gunzipSync(packed);
const bodyAt = lines.indexOf(10) + 1;

/** Opens a job as the page does, and makes of its takes what the page shows. */
async function opened(file: Blob): Promise<string> {
  try {
    const job = await jobOfParts(await readJob(file));
    for await (const [, { facts, judged }] of job.takes) {
      const held = takeOfParts(facts, judged!.maps, []);
      const report = reportOfParts(held, judged!.evidence);
      const full = judgedAnew(held, report, held.judgedBy);
      recordFacts(full, [full], 'cm');
      cellsCsv(full.reading);
      rejudge(report, { setup: UNKNOWN_SETUP, tolerance: TOLERANCES[1]! });
      const gaps = gapsOf(JSON.parse(JSON.stringify(full.reading))).filter((gap) => !/holds/.test(gap));
      if (gaps.length > 0) throw new Error(`the reading is not whole: ${gaps.slice(0, 3).join('; ')}`);
    }
    return 'opened';
  } catch (error) {
    if (error instanceof JobRefusal) return error.reason;
    throw error;
  }
}

/** Bytes of a packed job, and of its lines, bent; the latter packed again under a header that fits them. */
const files: InputKind<Uint8Array> = {
  name: 'job files',
  make(random, seed) {
    if (seed % 3 === 0) return bentBytes(packed, random);
    if (seed % 3 === 1) return gzipSync(bentBytes(lines, random), { level: 1 });
    const body = bentBytes(lines.subarray(bodyAt), random);
    const count = body.reduce((sum, byte) => sum + (byte === 10 ? 1 : 0), 0);
    const header = { schema: 'evenfield.job/1', lines: count, bytes: body.length };
    const sha256 = createHash('sha256').update(body).digest('hex');
    return gzipSync(Buffer.concat([Buffer.from(`${JSON.stringify({ ...header, sha256 })}\n`), body]), {
      level: 1,
    });
  },
  end: (bytes) => opened(new Blob([bytes as Uint8Array<ArrayBuffer>])),
  bytes: (bytes) => bytes,
};

/** What is in a job, bent as values and written as any other. */
const contents: InputKind<unknown[]> = {
  name: 'what is in a job',
  make(random) {
    const bent = bentValue(plainParts, random);
    return Array.isArray(bent) ? bent : [bent];
  },
  end: async (parts) => opened(await writeJob(parts)),
  bytes: (parts) =>
    Buffer.from(JSON.stringify(parts, (_, value) => (ArrayBuffer.isView(value) ? 'numbers' : value)) ?? ''),
};

export const jobKinds = [files, contents] as unknown as InputKind<never>[];
