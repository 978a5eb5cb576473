import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import { fillGainRow } from '../correct/gain-row.ts';
import type { Platform } from '../intake/platform.ts';
import type { Profile } from '../profile/profile.ts';
import { madeProfile } from './made-profile.ts';
import type { WrittenFile } from './write-picture.ts';
import { writePng } from './write-png.ts';
import { writeTiff } from './write-tiff.ts';

export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface GainPicture extends WrittenFile {
  /** Code 65535 stands for a gain of so many stops, and codes are linear: gain = code ÷ 65535 × 2^largestStops. */
  readonly largestStops: number;
  /** How to apply it, as it also stands in the file's own description. */
  readonly says: string;
}

/**
 * A profile's gains, those that take the cast out among them, as a 16-bit RGB picture of a size, for any editor that
 * can multiply in linear light: corrected = light × code ÷ 65535, then lighter by `largestStops`. It shows the upright
 * frame and carries a linear profile of the colour space in which the gains hold, where that has one.
 */
export async function gainPicture(
  profile: Profile,
  { widthPx, heightPx }: PictureSize,
  format: 'tiff' | 'png',
  platform: Platform,
): Promise<GainPicture> {
  const { lattice, neutral, colourSpace } = profile;
  const { columns, rows } = lattice;
  const channels = (['red', 'green', 'blue'] as const).map((name) => {
    const white = Math.log2(neutral[name]);
    return { columns, rows, log2Gain: lattice[name].map((gain) => gain + white) };
  });
  // bilinear between nodes, so that no gain is larger than the largest node's
  const largestStops = channels.reduce(
    (largest, { log2Gain }) => log2Gain.reduce((a, b) => Math.max(a, b), largest),
    Number.NEGATIVE_INFINITY,
  );
  const scale = 65535 / 2 ** largestStops;
  const samples = new Uint16Array(widthPx * heightPx * 3);
  const gains = new Float64Array(widthPx);
  for (let row = 0; row < heightPx; row++)
    channels.forEach((channel, offset) => {
      fillGainRow(channel, row, heightPx, gains);
      for (let i = 0, at = row * widthPx * 3 + offset; i < widthPx; i++, at += 3)
        samples[at] = Math.min(65535, Math.round(gains[i]! * scale));
    });
  const picture: CorrectedPicture = {
    ...{ widthPx, heightPx, channels: 3, bitsPerSample: 16, samples, orientation: 1, exif: null },
    iccProfile:
      'primaries' in colourSpace
        ? madeProfile({ ...colourSpace, name: `${colourSpace.name}, linear` }, { exponent: 1 })
        : null,
  };
  const description = sayHow(profile, largestStops);
  if (format === 'tiff') {
    const parts = writeTiff(picture, { description });
    return { parts, mime: 'image/tiff', extension: 'tif', largestStops, says: description };
  }
  const parts = await writePng(picture, platform, { description });
  return { parts, mime: 'image/png', extension: 'png', largestStops, says: description };
}

/** In letters that a TIFF's description can hold. */
function sayHow({ madeFrom, colourSpace, reference }: Profile, largestStops: number): string {
  const stops = largestStops.toFixed(4);
  return (
    `Gains that even the light of ${madeFrom.name}, to its ${reference} level. ` +
    `In linear ${colourSpace.name}: corrected = light * code / 65535 * 2^${stops}, per channel. ` +
    `That is: multiply by this picture in linear light, then make all lighter by ${stops} stops. ` +
    'Codes are linear; 65535 is the largest gain.'
  );
}
