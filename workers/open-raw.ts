import type { RawFile } from '../src/engine/intake/raw-file.ts';
import { loadLibraw } from './load-libraw.ts';
import { notStarted, openRawFile } from './raw-decoder.ts';

/**
 * Opens a raw file by a module that is fetched when it is first needed. It runs in the engine's own worker: a worker
 * inside that would outlive it where reading is cancelled, with all that it holds (seen in Chromium 156).
 */
export async function openRaw(bytes: Uint8Array): Promise<RawFile> {
  const { makeLibraw, options } = await loadLibraw().catch(notStarted);
  return openRawFile(makeLibraw, options, bytes);
}
