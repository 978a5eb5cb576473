import { expose, transfer } from 'comlink';
import librawUrl from 'libraw-wasm/dist/libraw.js?url';
import wasmUrl from 'libraw-wasm/dist/libraw.wasm?url';
import type { DevelopWishes, RawMetadata } from '../src/engine/intake/raw-file.ts';
import { type MakeLibraw, openRawDecoder, type RawDecoder } from './raw-decoder.ts';

let decoder: RawDecoder | null = null;

/** The raw decoder in a worker of its own: ending that gives its memory back, which nothing else does at once. */
const rawApi = {
  async open(bytes: Uint8Array): Promise<RawMetadata> {
    const at = (url: string) => new URL(url, import.meta.url).href;
    const { default: makeLibraw } = (await import(/* @vite-ignore */ at(librawUrl))) as {
      default: MakeLibraw;
    };
    decoder = await openRawDecoder(makeLibraw, { locateFile: () => at(wasmUrl) }, bytes);
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
