import { type ProxyMarked, type Remote, releaseProxy } from 'comlink';
import { frameDifferences } from '../src/engine/correct/frame-differences.ts';
import {
  type CorrectedFile,
  type CorrectOptions,
  type CorrectPhase,
  correctFrame,
} from '../src/engine/correct-frame.ts';
import { EngineError } from '../src/engine/engine-error.ts';
import { type GainPicture, gainPicture, type PictureSize } from '../src/engine/export/gain-picture.ts';
import { rampFigures } from '../src/engine/export/ramp-figures.ts';
import { type FirstLook, firstLook } from '../src/engine/first-look.ts';
import { type FrameLook, glanceAtFrame } from '../src/engine/glance-at-frame.ts';
import { openToCorrect, previewCorrection } from '../src/engine/preview-correction.ts';
import { makeProfile } from '../src/engine/profile/make-profile.ts';
import type { Profile } from '../src/engine/profile/profile.ts';
import { type BracketOptions, type BracketPhase, readBracket } from '../src/engine/read-bracket.ts';
import {
  type FrameSource,
  type ReadOptions,
  type ReadPhase,
  readFrame,
  rejudge,
} from '../src/engine/read-frame.ts';
import type { CameraResponse } from '../src/engine/response/camera-response.ts';
import { sortShoot } from '../src/engine/sorting/sort-shoot.ts';
import { browserPlatform } from './browser-platform.ts';

/** A file by reference: its bytes are read on the worker's side. */
export interface NamedBlob {
  readonly name: string;
  readonly blob: Blob;
}

/** With a look in small, once, where there is one. */
export type ReportProgress = (phase: ReadPhase, fraction: number, look?: FirstLook) => void;

export type ReportBracket = (phase: BracketPhase, fraction: number) => void;

export type ReportCorrection = (phase: CorrectPhase, fraction: number) => void;

/** As the engine's, the blank by reference. */
export interface CorrectBlobOptions extends Omit<CorrectOptions, 'blank'> {
  readonly blank?: NamedBlob;
}

/** A corrected file by reference, and what is to be said of it. */
export interface CorrectedBlob extends Omit<CorrectedFile, 'parts' | 'mime'> {
  readonly blob: Blob;
}

/** A profile's gains as a picture, by reference, and how to apply it. */
export interface GainBlob extends Omit<GainPicture, 'parts' | 'mime'> {
  readonly blob: Blob;
}

/** What the worker offers, without the worker: `engine.worker.ts` only exposes it. */
export const engineApi = {
  async read(
    files: readonly NamedBlob[],
    options: ReadOptions,
    report: Remote<ReportProgress & ProxyMarked> | null,
  ) {
    try {
      const sources = await Promise.all(files.map(readBytes));
      if (report)
        firstLook(sources[0]!, browserPlatform)
          .then((look) => look && tellLook(look, report))
          .catch(() => {}); // the reading may be over by then, and nobody left to be told
      return await readFrame(sources, options, browserPlatform, (phase, fraction) => {
        report?.(phase, fraction).catch(() => {}); // a client that has gone need not hear it
      });
    } finally {
      report?.[releaseProxy]();
    }
  },
  async readBracket(
    files: readonly NamedBlob[],
    options: BracketOptions,
    report: Remote<ReportBracket & ProxyMarked> | null,
  ): Promise<CameraResponse> {
    try {
      const sources = await Promise.all(files.map(readBytes));
      return await readBracket(sources, options, browserPlatform, (phase, fraction) => {
        report?.(phase, fraction).catch(() => {});
      });
    } finally {
      report?.[releaseProxy]();
    }
  },
  async correct(
    file: NamedBlob,
    profile: Profile,
    { blank, ...options }: CorrectBlobOptions,
    report: Remote<ReportCorrection & ProxyMarked> | null,
  ): Promise<CorrectedBlob> {
    try {
      const source = await readBytes(file);
      const withBlank = blank ? { ...options, blank: await readBytes(blank) } : options;
      const onProgress: ReportCorrection = (phase, fraction) => {
        report?.(phase, fraction).catch(() => {});
      };
      const corrected = await correctFrame(source, profile, withBlank, browserPlatform, onProgress);
      const { parts, mime, ...facts } = corrected;
      return { ...facts, blob: new Blob(parts as Uint8Array<ArrayBuffer>[], { type: mime }) };
    } finally {
      report?.[releaseProxy]();
    }
  },
  async openToCorrect(file: NamedBlob, response: CameraResponse | null = null) {
    return openToCorrect(await readBytes(file), browserPlatform, response);
  },
  /** Looks at a frame in small, for telling a shoot's frames apart. */
  async glance(file: NamedBlob): Promise<FrameLook> {
    return glanceAtFrame(await readBytes(file), browserPlatform);
  },
  sortShoot,
  previewCorrection,
  frameDifferences,
  rejudge,
  profile: makeProfile,
  async gainPicture(profile: Profile, size: PictureSize, format: 'tiff' | 'png'): Promise<GainBlob> {
    const { parts, mime, ...facts } = await gainPicture(profile, size, format, browserPlatform);
    return { ...facts, blob: new Blob(parts as Uint8Array<ArrayBuffer>[], { type: mime }) };
  },
  rampFigures,
};

function tellLook(look: FirstLook, report: Remote<ReportProgress & ProxyMarked>): void {
  report('decoding', 0, look).catch(() => {});
}

export type EngineApi = typeof engineApi;

/** Above the largest picture that is read, stored plainly at 16 bits; a browser's arrays end at about 2 GB. */
const LARGEST_FILE_BYTES = 1.5 * 2 ** 30;

async function readBytes({ name, blob }: NamedBlob): Promise<FrameSource> {
  if (blob.size > LARGEST_FILE_BYTES)
    throw new EngineError(
      'too-large',
      `The file ${name} has ${(blob.size / 2 ** 30).toFixed(1)} GB; at most ${LARGEST_FILE_BYTES / 2 ** 30} GB are read. ` +
        'Export it smaller, or with compression.',
      { fileName: name, bytes: blob.size },
    );
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
