import { type ProxyMarked, type Remote, releaseProxy } from 'comlink';
import { EngineError } from '../src/engine/engine-error.ts';
import { makeProfile } from '../src/engine/profile/make-profile.ts';
import {
  type FrameSource,
  type ReadOptions,
  type ReadPhase,
  readFrame,
  rejudge,
} from '../src/engine/read-frame.ts';
import { browserPlatform } from './browser-platform.ts';

/** A file by reference: its bytes are read on the worker's side. */
export interface NamedBlob {
  readonly name: string;
  readonly blob: Blob;
}

export type ReportProgress = (phase: ReadPhase, fraction: number) => void;

/** What the worker offers, without the worker: `engine.worker.ts` only exposes it. */
export const engineApi = {
  async read(
    files: readonly NamedBlob[],
    options: ReadOptions,
    report: Remote<ReportProgress & ProxyMarked> | null,
  ) {
    const onProgress: ReportProgress = (phase, fraction) => {
      report?.(phase, fraction).catch(() => {}); // a client that has gone need not hear it
    };
    try {
      return await readFrame(await Promise.all(files.map(readBytes)), options, browserPlatform, onProgress);
    } finally {
      report?.[releaseProxy]();
    }
  },
  rejudge,
  profile: makeProfile,
};

export type EngineApi = typeof engineApi;

async function readBytes({ name, blob }: NamedBlob): Promise<FrameSource> {
  const buffer = await blob.arrayBuffer().catch((cause: unknown) => {
    throw new EngineError(
      'unreadable-file',
      `The file ${name} could not be read from where it lies; it may have been moved, changed or taken off. Choose it again.`,
      { fileName: name },
      { cause },
    );
  });
  return { name, bytes: new Uint8Array(buffer) };
}
