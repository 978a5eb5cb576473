import { expose, transfer } from 'comlink';
import type { DevelopWishes, RawMetadata } from '../src/engine/intake/raw-file.ts';
import { loadLibraw } from './load-libraw.ts';
import { openRawDecoder, type RawDecoder } from './raw-decoder.ts';

let decoder: RawDecoder | null = null;

/** The raw decoder in a worker of its own: ending that gives its memory back, which nothing else does at once. */
const rawApi = {
  async open(bytes: Uint8Array): Promise<RawMetadata> {
    const { makeLibraw, options } = await loadLibraw();
    decoder = await openRawDecoder(makeLibraw, options, bytes);
    return decoder.metadata;
  },
  mosaic() {
    const mosaic = decoder?.mosaic() ?? null;
    return mosaic && transfer(mosaic, [mosaic.data.buffer]);
  },
  developed(wishes: DevelopWishes) {
    const picture = decoder!.developed(wishes);
    return transfer(picture, [picture.data.buffer]);
  },
};

export type RawApi = typeof rawApi;

expose(rawApi);
