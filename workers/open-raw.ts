import { type Remote, wrap } from 'comlink';
import type { RawFile } from '../src/engine/intake/raw-file.ts';
import type { RawApi } from './raw.worker.ts';

/** Opens a raw file in a worker that is started for it, and ended with it. */
export async function openRaw(bytes: Uint8Array): Promise<RawFile> {
  const worker = new Worker(new URL('./raw.worker.ts', import.meta.url), { type: 'module' });
  const decoder = wrap<RawApi>(worker);
  const died = new Promise<never>((_, reject) => {
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      reject(new Error(event.message || 'the raw decoder ended without saying why'));
    });
  });
  died.catch(() => {}); // it may end while nothing is asked of it
  const asked = <Result>(ask: (decoder: Remote<RawApi>) => Promise<Result>) =>
    Promise.race([ask(decoder), died]);
  try {
    const metadata = await asked((its) => its.open(bytes));
    return {
      metadata,
      mosaic: () => asked((its) => its.mosaic()),
      developed: (wishes) => asked((its) => its.developed(wishes)),
      dispose: () => worker.terminate(),
    };
  } catch (error) {
    worker.terminate();
    throw error;
  }
}
