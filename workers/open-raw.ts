import type { RawFile } from '../src/engine/intake/raw-file.ts';
import { loadLibraw } from './load-libraw.ts';
import { notStarted, openRawFile } from './raw-decoder.ts';

const NativeFunction = Function;

/**
 * Opens a raw file by a module that is fetched when it is first needed. It runs in the engine's own worker: a worker
 * inside that would outlive it where reading is cancelled, with all that it holds (seen in Chromium 156). From then on
 * texts that its glue makes functions of are gone by there without a script being made, which the page's policy refuses.
 */
export async function openRaw(bytes: Uint8Array): Promise<RawFile> {
  const fetched = Promise.all([loadLibraw(), import('./functions-of-text.ts')]);
  const [{ makeLibraw, options }, { withKnownTexts }] = await fetched.catch(notStarted);
  globalThis.Function = withKnownTexts(NativeFunction);
  return openRawFile(makeLibraw, options, bytes);
}
