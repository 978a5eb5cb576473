import sharp from 'sharp';
import { nodePlatform as platformWith } from '../workers/node-platform.ts';

/** The engine's platform in Node as the package has it, with a decoder and an encoder lent as a user of it would. */
export const nodePlatform = platformWith({
  async decodePicture(bytes, type) {
    if (type === 'image/heic') return null;
    // an embedded profile would be converted to sRGB; Exif turning is off unless asked for
    const { data, info } = await sharp(bytes, { ignoreIcc: true, failOn: 'error', limitInputPixels: false })
      .toColourspace('srgb')
      .raw()
      .toBuffer({ resolveWithObject: true });
    const samples = new Uint8Array(info.width * info.height * 4);
    const { channels } = info;
    for (let from = 0, to = 0; to < samples.length; from += channels, to += 4) {
      samples[to] = data[from]!;
      samples[to + 1] = data[from + (channels > 2 ? 1 : 0)]!;
      samples[to + 2] = data[from + (channels > 2 ? 2 : 0)]!;
      samples[to + 3] = channels % 2 === 0 ? data[from + channels - 1]! : 255;
    }
    return { widthPx: info.width, heightPx: info.height, samples };
  },

  async decodeJpegInSmall(bytes, size, longestPx) {
    const longest = Math.max(size.widthPx, size.heightPx);
    const width = Math.round((size.widthPx * Math.min(longest, longestPx)) / longest);
    const small = sharp(bytes, { failOn: 'error' }).resize(width).toColourspace('srgb').ensureAlpha().raw();
    const { data, info } = await small.toBuffer({ resolveWithObject: true });
    return { widthPx: info.width, heightPx: info.height, samples: new Uint8Array(data) };
  },

  async encodeJpeg({ widthPx, heightPx, samples }, quality) {
    const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
    const jpeg = await sharp(bytes, { raw: { width: widthPx, height: heightPx, channels: 4 } })
      .removeAlpha()
      .jpeg({ quality: Math.round(quality * 100), chromaSubsampling: quality === 1 ? '4:4:4' : '4:2:0' })
      .toBuffer();
    return new Uint8Array(jpeg);
  },
});
