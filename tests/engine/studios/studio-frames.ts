import { findings } from '../../../src/engine/diagnosis/findings.ts';
import type { SecondFrame, SecondFrameRole } from '../../../src/engine/lamps/second-frame.ts';
import { readSet, type SetReading } from '../../../src/engine/lamps/set-reading.ts';
import { type MeasuredFrame, type MeasureOptions, measureFrame } from '../../../src/engine/measure-frame.ts';
import { samplesOf } from '../../../src/engine/read-frame.ts';
import type { Finding } from '../../../src/engine/reading.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { nodePlatform } from '../../node-platform.ts';
import { lampOffSet, slidSet } from '../../synthetic/random/other-takes.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import type { StudioSet } from '../../synthetic/studio/studio-set.ts';
import { fileOf } from '../known-frames.ts';

const WIDTH_PX = 600;

/** How far the camera is slid for a lens check, as the tool asks for it. */
const SLID_FRAME_WIDTHS = 1 / 3;

/** Each frame has noise of its own. */
const NOISE_SEEDS = { blank: 0, 'lamp-off': 1000, shifted: 2000 } as const;

/** What is made of a studio's blank frame, alone or with a second frame. */
export interface StudioReading {
  readonly frame: MeasuredFrame;
  readonly set: SetReading | null;
  readonly findings: readonly Finding[];
  /** Processor time of fitting the set and finding the causes: other programs at work do not count. */
  readonly fitMs: number;
}

/** Photographs a studio's empty background, 16 bits at 600 pixels, and measures it; none of the studios is refused. */
export function measureStudio(studio: RandomStudio): Promise<MeasuredFrame> {
  return measured(studio, studio.set, NOISE_SEEDS.blank, {});
}

/** The same with the lights off, or with the camera slid by a third of the frame, in the blank frame's region. */
export async function secondFrameOf(
  studio: RandomStudio,
  blank: MeasuredFrame,
  kind: 'lamp-off' | 'shifted',
): Promise<SecondFrame> {
  const role: SecondFrameRole =
    kind === 'lamp-off' ? { kind } : { kind, rightFrameWidths: SLID_FRAME_WIDTHS, downFrameWidths: 0 };
  const set = kind === 'lamp-off' ? lampOffSet(studio.set) : slidSet(studio.set, SLID_FRAME_WIDTHS);
  const { region } = blank.measurement;
  return { role, samples: samplesOf(await measured(studio, set, NOISE_SEEDS[kind], { role, region })) };
}

/** Fits the set that was entered and names the causes, as a reading does. */
export function readStudio(
  { setup }: RandomStudio,
  frame: MeasuredFrame,
  secondFrames: readonly SecondFrame[] = [],
): StudioReading {
  const samples = samplesOf(frame);
  const start = process.cpuUsage();
  const set = readSet(frame.measurement, samples, setup, secondFrames);
  const found = findings({ ...frame, set, setup, tolerance: DEFAULT_TOLERANCE });
  return { frame, set, findings: found, fitMs: processorMs(start) };
}

function processorMs(since: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(since);
  return (user + system) / 1000;
}

async function measured(
  { seed, aspect }: RandomStudio,
  set: StudioSet,
  noise: number,
  options: MeasureOptions,
): Promise<MeasuredFrame> {
  const heightPx = Math.round(WIDTH_PX * aspect);
  const bytes = await fileOf(studioField(set).field, '16 bit', WIDTH_PX, heightPx, seed + noise);
  return await measureFrame([{ name: `studio-${seed}.png`, bytes }], options, nodePlatform);
}
