import { frameInSmall } from './correct/frame-in-small.ts';
import { linearise } from './frame/linearise.ts';
import { readThroughTables } from './frame/read-through-tables.ts';
import { decodeImage } from './intake/decode-image.ts';
import { embeddedPreview } from './intake/embedded-preview.ts';
import { heldChannels } from './intake/held-channels.ts';
import { readJpegSegments } from './intake/jpeg-segments.ts';
import type { Platform, RgbaPicture } from './intake/platform.ts';
import { NO_EXIF, readExif } from './intake/read-exif.ts';
import { sniffFormat } from './intake/sniff-format.ts';
import type { FrameSource } from './measure-frame.ts';
import type { Exposure } from './reading.ts';
import { type FrameGlance, frameGlance } from './sorting/frame-glance.ts';
import { shrunkPicture } from './sorting/shrunk-picture.ts';
import { uprightPicture } from './sorting/upright-picture.ts';

/** What a frame looks like in small. Structured-cloneable. */
export interface FrameLook {
  readonly glance: FrameGlance;
  /** Upright, sRGB, to be shown. */
  readonly picture: RgbaPicture;
  readonly exposure: Exposure | null;
}

/** Enough for outlines; a decoder may hand out more. */
const LONGEST_PX = 192;
const SHOWN_PX = 96;
const TOP_CODE = 65535;

/**
 * Looks at a frame without reading it: a JPEG decoded in small, the preview that a raw file holds; other files have
 * neither and are decoded whole. For telling frames apart only: previews are in no certain colours.
 *
 * @throws {@link EngineError} what decoding throws.
 */
export async function glanceAtFrame({ bytes }: FrameSource, platform: Platform): Promise<FrameLook> {
  const looked = (await inSmall(bytes, platform)) ?? (await decodedWhole(bytes, platform));
  return {
    glance: frameGlance(looked.picture, looked.exposure),
    picture: shrunkPicture(looked.picture, SHOWN_PX),
    exposure: looked.exposure,
  };
}

type Looked = Pick<FrameLook, 'picture' | 'exposure'>;

/** `null` where the file holds no JPEG, or the platform does not decode in small. */
async function inSmall(bytes: Uint8Array, platform: Platform): Promise<Looked | null> {
  const format = sniffFormat(bytes);
  if (!platform.decodeJpegInSmall || !['jpeg', 'tiff', 'raw'].includes(format)) return null;
  const jpeg = format === 'jpeg' ? bytes : embeddedPreview(bytes);
  if (jpeg === null) return null;
  if (format !== 'jpeg') return previewIn(bytes, jpeg, platform).catch(() => null); // a preview need not decode
  return jpegInSmall(jpeg, platform);
}

async function jpegInSmall(jpeg: Uint8Array, platform: Platform): Promise<Looked | null> {
  const segments = readJpegSegments(jpeg);
  return looked(jpeg, segments, segments.exif, platform);
}

/** The notes are the file's own. */
async function previewIn(bytes: Uint8Array, jpeg: Uint8Array, platform: Platform): Promise<Looked | null> {
  return looked(jpeg, readJpegSegments(jpeg), bytes, platform);
}

async function looked(
  jpeg: Uint8Array,
  size: { readonly widthPx: number; readonly heightPx: number },
  notes: Uint8Array | null,
  platform: Platform,
): Promise<Looked | null> {
  const { orientation, exposure } = notes ? readExif(notes) : NO_EXIF;
  const picture = (await platform.decodeJpegInSmall?.(jpeg, size, LONGEST_PX)) ?? null;
  return picture && { picture: uprightPicture(shrunkPicture(picture, LONGEST_PX), orientation), exposure };
}

async function decodedWhole(bytes: Uint8Array, platform: Platform): Promise<Looked> {
  const stored = await readThroughTables(await decodeImage(bytes, platform), platform);
  const isGrey = heldChannels(stored) < 3;
  const { frame } = frameInSmall(linearise(stored, null).frame, LONGEST_PX, isGrey);
  const { widthPx, heightPx } = frame;
  const samples = new Uint8ClampedArray(widthPx * heightPx * 4);
  for (let pixel = 0; pixel < widthPx * heightPx; pixel++) {
    for (let channel = 0; channel < 3; channel++)
      samples[pixel * 4 + channel] = (255 * frame.samples[isGrey ? pixel : pixel * 3 + channel]!) / TOP_CODE;
    samples[pixel * 4 + 3] = 255;
  }
  return { picture: { widthPx, heightPx, samples }, exposure: stored.exposure };
}
