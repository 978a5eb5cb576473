import sharp from 'sharp';
import { toJpeg, toPng } from '../encode.ts';
import { type RenderedFrame, renderFrame } from '../render-frame.ts';
import type { Sample } from './sample.ts';
import { sampleField } from './sample-truth.ts';
import { SHEET_SAMPLES } from './sheet-samples.ts';
import { WALL_SAMPLES } from './wall-samples.ts';

/** In the order in which the page offers them. */
const ORDER = [
  'sheet-off-centre.jpg',
  'light-too-close.jpg',
  'one-side-dark-and-cool.png',
  'two-unequal-lights.jpg',
  'room-spill.png',
  'tinted-sheet.jpg',
  'sheet-yellowed-on-one-side.jpg',
  'light-panel.jpg',
  'nearly-perfect.png',
  'clipped.jpg',
];

export const SAMPLES: readonly Sample[] = [...SHEET_SAMPLES, ...WALL_SAMPLES].sort(
  (a, b) => ORDER.indexOf(a.file) - ORDER.indexOf(b.file),
);

/** The sample's frame as rendered, before it is coded into a file. */
export function sampleFrame(sample: Sample): RenderedFrame {
  const { widthPx, heightPx, electronsAtFull, seed, stored } = sample;
  const bits = stored.as === 'png' ? stored.bits : 8;
  return renderFrame(sampleField(sample), {
    widthPx,
    heightPx,
    bits,
    curve: 'srgb',
    electronsAtFull,
    seed,
  });
}

export async function sampleBytes(sample: Sample): Promise<Uint8Array> {
  const frame = sampleFrame(sample);
  const exif = { ...sample.exif, orientation: 1 };
  if (sample.stored.as === 'png') return toPng(frame, { srgb: true, exif, level: 9 });
  return toJpeg(frame, { ...sample.stored, exif });
}

/** The file of the small picture that stands for a sample in the list: the page need not fetch the frames for it. */
export const smallFile = ({ file }: Pick<Sample, 'file'>) => file.replace(/\.\w+$/, '-small.jpg');

/** As wide as the list shows it on a screen of common density. */
export const SMALL_WIDTH_PX = 304;

export async function smallBytes(frame: Uint8Array): Promise<Uint8Array> {
  return sharp(frame).resize({ width: SMALL_WIDTH_PX }).jpeg({ quality: 60, mozjpeg: true }).toBuffer();
}

/** The list that the page loads. */
export function samplesJson(): string {
  const list = SAMPLES.map(({ file, title, story, setup, subjectFile }) => ({
    ...{ file, small: smallFile({ file }), title, story, setup },
    ...(subjectFile !== undefined && { subject: subjectFile }),
  }));
  return `${JSON.stringify(list, null, 2)}\n`;
}
