import { expect, test } from 'vitest';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import { readFrame, rejudge } from '../../src/engine/read-frame.ts';
import type { BenchEngine } from '../../src/screen/bench-engine.ts';
import { BenchSession } from '../../src/screen/bench-session.ts';
import { render } from '../engine/blank-render.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { toPng } from '../synthetic/encode.ts';
import { lampOffSet, slidSet } from '../synthetic/random/other-takes.ts';
import { SHEET_SET } from '../synthetic/studio/even-set.ts';
import { studioField } from '../synthetic/studio/studio-field.ts';
import type { StudioSet } from '../synthetic/studio/studio-set.ts';

const set: StudioSet = {
  ...SHEET_SET,
  spill: { level: 0.1, colour: { kind: 'planckian', kelvin: 3000 }, slopeEv: 1, towardDeg: 0 },
  exposure: { peak: 0.7 },
};
const SLIDE = { kind: 'shifted', rightFrameWidths: 0.33, downFrameWidths: 0 } as const;

function frame(name: string, of: StudioSet): File {
  const rendered = render(studioField(of).field, { widthPx: 240, heightPx: 160, bits: 16 });
  return new File([toPng(rendered) as Uint8Array<ArrayBuffer>], name);
}

/** Luminance of the brightest of the 12 × 8 blocks that a set is fitted to, in stops, by the weights of sRGB. */
function brightestBlockEv(of: StudioSet): number {
  const { field } = studioField(of);
  const blocks = new Float64Array(12 * 8);
  for (let i = 0; i < 60 * 40; i++) {
    const [x, y] = [(i % 60) + 0.5, Math.floor(i / 60) + 0.5];
    const [red, green, blue] = field(x / 60, y / 40);
    const ev = Math.log2(0.2126 * red + 0.7152 * green + 0.0722 * blue);
    blocks[Math.floor(y / 5) * 12 + Math.floor(x / 5)]! += ev / 25;
  }
  return Math.max(...blocks);
}

/** The engine itself, with everything cloned on its way there and back as a worker's messages are. */
const engine = (): BenchEngine => ({
  async read(frames, options) {
    const sources = frames.map(async ({ name, blob }) => ({
      name,
      bytes: new Uint8Array(await blob.arrayBuffer()),
    }));
    return structuredClone(
      await readFrame(await Promise.all(sources), structuredClone(options), nodePlatform),
    );
  },
  rejudge: async (report, options) =>
    structuredClone(rejudge(structuredClone(report), structuredClone(options))),
  profile: async (report, options) => makeProfile(report, options),
  dispose() {},
});

test('a take is fitted with the light that its second frames show', async () => {
  const bench = new BenchSession(engine, { reading() {}, progress() {}, failure() {}, changed() {} });
  await bench.read([frame('blank.png', set)]);
  const dark = await bench.read([frame('dark.png', lampOffSet(set))], { role: 'lamp-off' });
  await bench.read([frame('slid.png', slidSet(set, 0.33))], { role: 'lens-check', lensCheck: SLIDE });

  const { report, reading } = bench.newest!;
  expect(reading.frame.name).toBe('blank.png');
  expect(dark.frame.name).toBe('dark.png');
  const [off, slid] = report.fittedWith.secondFrames;
  expect([off!.role, slid!.role]).toEqual([{ kind: 'lamp-off' }, SLIDE]);
  const below = off!.samples.levelEv - report.samples.levelEv;
  expectWithin(below, brightestBlockEv(lampOffSet(set)) - brightestBlockEv(set), 0.02);
  expect(report.set).not.toBeNull();
});
