import { EngineError } from '../engine-error.ts';
import type { DecodedType, Platform } from './platform.ts';

/** A picture decoded by the platform, of the size that its file's own header says. */
export interface PlatformPicture {
  readonly samples: Uint8Array | Uint8ClampedArray;
  /** Whether no pixel lets anything through. */
  readonly isOpaque: boolean;
}

/**
 * Has a picture decoded that is laid bare: neither turned nor converted by notes of its own.
 *
 * @param name as in "The WebP"
 * @throws {@link EngineError} `unsupported-file` where the platform does not know the format, `unreadable-file` where
 * the picture's data is damaged, or of another size than its header says.
 */
export async function platformPicture(
  bytes: Uint8Array,
  type: DecodedType,
  { name, widthPx, heightPx }: { readonly name: string; readonly widthPx: number; readonly heightPx: number },
  platform: Platform,
): Promise<PlatformPicture> {
  const picture = await platform.decodePicture(bytes, type).catch((cause: unknown) => {
    if (cause instanceof EngineError) throw cause; // the platform itself can't, and says why
    throw new EngineError(
      'unreadable-file',
      `The ${name}'s picture data is damaged and does not decode. Copy or export it again.`,
      {},
      { cause },
    );
  });
  if (!picture)
    throw new EngineError(
      'unsupported-file',
      `This browser does not decode ${name} pictures. Export it as a 16-bit TIFF or PNG, or as a JPEG at the best quality, ` +
        `or open this page in a browser that shows ${name} pictures.`,
      { type },
    );
  if (picture.widthPx !== widthPx || picture.heightPx !== heightPx)
    throw new EngineError(
      'unreadable-file',
      `The ${name}'s header says ${widthPx} × ${heightPx} pixels and its picture ${picture.widthPx} × ${picture.heightPx}: ` +
        'it is damaged, or cropped by a note that is not read here. Export it again as a TIFF or PNG.',
      { widthPx, heightPx },
    );
  return { samples: picture.samples, isOpaque: isOpaque(picture.samples) };
}

function isOpaque(rgba: Uint8Array | Uint8ClampedArray): boolean {
  for (let at = 3; at < rgba.length; at += 4) if (rgba[at] !== 255) return false;
  return true;
}

/** Sentences for every picture that a platform decodes, by what its file says of itself. */
export function platformPictureSays({
  isOpaque,
  isLossy,
  bits,
  frames,
}: {
  readonly isOpaque: boolean;
  readonly isLossy: boolean;
  /** Bits of a sample in the file. */
  readonly bits: number;
  readonly frames: number | 'several';
}): string[] {
  return [
    ...(frames === 1
      ? []
      : [`It moves${frames === 'several' ? '' : ` (${frames} pictures)`}; the first picture is read.`]),
    ...(bits > 8
      ? [`It holds ${bits} bits a sample, of which a browser hands out 8; a TIFF or PNG keeps 16.`]
      : []),
    ...(isOpaque
      ? []
      : ['Parts of it are transparent; their colours are only as exact as a browser keeps them.']),
    ...(isLossy ? [LOSSY] : []),
  ];
}

const LOSSY =
  'Its coding leaves smooth light in steps: a falloff may be wrong by 0.02 stop, which the ± allows for, and colours by 0.002 u′v′, ' +
  'which it does not; a TIFF, a PNG or the camera’s own JPEG tells more.';
