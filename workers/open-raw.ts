import type { RawFile } from '../src/engine/intake/raw-file.ts';
import { withKnownTexts } from './functions-of-text.ts';
import { loadLibraw } from './load-libraw.ts';
import { notStarted, openRawFile } from './raw-decoder.ts';

const functionOfKnownText = withKnownTexts(Function);

/**
 * Opens a raw file by a module that is fetched when it is first needed. It runs in the engine's own worker: a worker
 * inside that would outlive it where reading is cancelled, with all that it holds (seen in Chromium 156). From then on
 * functions of text are made there by the texts that are known alone: the page's policy refuses to make scripts of text.
 */
export async function openRaw(bytes: Uint8Array): Promise<RawFile> {
  globalThis.Function = functionOfKnownText;
  const { makeLibraw, options } = await loadLibraw().catch(notStarted);
  return openRawFile(makeLibraw, options, bytes);
}
