import { EngineError } from '../engine-error.ts';
import { areUnspecified, type CodePoints, codePointsNotRead, refuseCodePoints } from './code-points.ts';
import type { FileDecoder } from './file-decoder.ts';
import { inflateIccp } from './inflate-iccp.ts';
import { readPngChunks } from './png-chunks.ts';
import { NO_EXIF, readExif } from './read-exif.ts';
import { readPngPixels } from './read-png-pixels.ts';
import type { StatedChromaticities } from './stored-image.ts';

/**
 * Decodes a whole PNG of any depth, colour type and interlace. A single colour marked as transparent (tRNS without a
 * palette) is left as it is: light is read from what is stored.
 *
 * @throws {@link EngineError} as `decodeImage`.
 */
export const decodePngFile: FileDecoder = async (bytes, platform, onProgress) => {
  const chunks = readPngChunks(bytes);
  const { widthPx, heightPx } = chunks.header;
  const iccProfile = chunks.iccp && (await inflateIccp(chunks.iccp, platform));
  const codePoints = chunks.cicp && codePointsOf(chunks.cicp, iccProfile !== null);
  const { samples, channels, bitsPerSample } = await readPngPixels(chunks, platform, onProgress);
  const sRgbStated = chunks.srgb !== null || (codePoints?.primaries === 1 && codePoints.transfer === 13);
  const speaksForItself = iccProfile !== null || sRgbStated || codePoints !== null;
  const exif = chunks.exif ? readExif(chunks.exif) : NO_EXIF;
  return {
    format: 'png',
    widthPx,
    heightPx,
    channels,
    bitsPerSample,
    samples,
    orientation: exif.orientation,
    iccProfile: codePoints ? null : iccProfile,
    gamma: speaksForItself ? null : gammaOf(chunks.gama),
    exifColourSpace: exif.colourSpace,
    exposure: exif.exposure,
    exif: chunks.exif,
    xmp: chunks.xmp,
    jpegDcSteps: null,
    sRgbStated,
    codePoints: sRgbStated ? null : codePoints,
    chromaticities: speaksForItself ? null : chromaticitiesOf(chunks.chrm),
  };
};

/**
 * cICP holds primaries, transfer, matrix (0 for RGB) and whether codes fill their range. It goes before a profile where
 * both are there; where it can't be gone by, the profile serves. Source: PNG, third edition (W3C, 2025), 11.3.2.6.
 */
function codePointsOf(cicp: Uint8Array, hasProfile: boolean): CodePoints | null {
  const [primaries = -1, transfer = -1, matrix, fullRange] = cicp;
  const codePoints = { primaries, transfer };
  const isOdd = cicp.length !== 4 || matrix !== 0 || fullRange !== 1;
  if (hasProfile && (isOdd || codePointsNotRead(codePoints) !== null)) return null;
  if (isOdd)
    throw new EngineError(
      'unsupported-file',
      `The PNG states its colour as code points ${[...cicp].join(', ')}: no RGB over the full range, which was needed. ` +
        'Export it as sRGB, or with an ICC profile embedded.',
    );
  refuseCodePoints(codePoints, 'PNG');
  return areUnspecified(codePoints) ? null : codePoints;
}

/** gAMA holds the encoding exponent × 100 000 (ISO/IEC 15948:2004, 11.3.3.2). */
function gammaOf(gama: Uint8Array | null): number | null {
  if (gama?.length !== 4) return null;
  const stored = new DataView(gama.buffer, gama.byteOffset).getUint32(0);
  const exponent = 100_000 / stored;
  return exponent >= 0.2 && exponent <= 5 ? exponent : null; // beyond that it is a slip, not a coding
}

/** cHRM holds x and y of white, red, green and blue × 100 000 (ISO/IEC 15948:2004, 11.3.3.1). */
function chromaticitiesOf(chrm: Uint8Array | null): StatedChromaticities | null {
  if (chrm?.length !== 32) return null;
  const view = new DataView(chrm.buffer, chrm.byteOffset);
  const xy = (index: number) =>
    [view.getUint32(index * 8) / 1e5, view.getUint32(index * 8 + 4) / 1e5] as const;
  return { white: xy(0), red: xy(1), green: xy(2), blue: xy(3) };
}
