import { mkdirSync, writeFileSync } from 'node:fs';
import { test } from 'vitest';
import { SAMPLES, sampleBytes, samplesJson, smallBytes, smallFile } from './sample-files.ts';
import { sampleTruth } from './sample-truth.ts';
import { samplesReadme } from './samples-readme.ts';
import { subjectBytes } from './tumbler-scene.ts';

const folder = new URL('../../../samples/', import.meta.url);

test('writes the sample frames, their list and their truth', { timeout: 600_000 }, async () => {
  mkdirSync(folder, { recursive: true });
  const truths = new Map(SAMPLES.map((sample) => [sample.file, sampleTruth(sample)]));
  let total = 0;
  for (const sample of SAMPLES) {
    const bytes = await sampleBytes(sample);
    writeFileSync(new URL(sample.file, folder), bytes);
    total += bytes.length;
    console.log(`${sample.file}: ${(bytes.length / 1000).toFixed(0)} kB`);
    const small = await smallBytes(bytes);
    writeFileSync(new URL(smallFile(sample), folder), small);
    total += small.length;
    if (sample.subjectFile === undefined) continue;
    const subject = await subjectBytes(sample);
    writeFileSync(new URL(sample.subjectFile, folder), subject);
    total += subject.length;
    console.log(`${sample.subjectFile}: ${(subject.length / 1000).toFixed(0)} kB`);
  }
  console.log(`together ${(total / 1e6).toFixed(2)} MB`);
  writeFileSync(new URL('samples.json', folder), samplesJson());
  writeFileSync(new URL('README.md', folder), samplesReadme(truths));
});
