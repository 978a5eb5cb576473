import librawUrl from 'libraw-wasm/dist/libraw.js?url';
import wasmUrl from 'libraw-wasm/dist/libraw.wasm?url';
import type { MakeLibraw } from './raw-decoder.ts';

/** LibRaw's own two files, fetched unchanged from where they are served: whoever replaces them replaces LibRaw. */
export async function loadLibraw(): Promise<{ makeLibraw: MakeLibraw; options: object }> {
  const at = (url: string) => new URL(url, import.meta.url).href;
  const { default: makeLibraw } = (await import(/* @vite-ignore */ at(librawUrl))) as { default: MakeLibraw };
  return { makeLibraw, options: { locateFile: () => at(wasmUrl) } };
}
