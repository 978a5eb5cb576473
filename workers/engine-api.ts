import { type ProxyMarked, type Remote, releaseProxy } from 'comlink';
import type { FrameToCorrect } from '../src/engine/correct/frame-differences.ts';
import type { CorrectedFile, CorrectOptions, CorrectPhase } from '../src/engine/correct-frame.ts';
import { EngineError } from '../src/engine/engine-error.ts';
import type { GainPicture, PictureSize } from '../src/engine/export/gain-picture.ts';
import { fetchedPart } from '../src/engine/fetched-part.ts';
import { type FirstLook, firstLook } from '../src/engine/first-look.ts';
import type { FrameLook } from '../src/engine/glance-at-frame.ts';
import type { Platform } from '../src/engine/intake/platform.ts';
import type { ShotFacts } from '../src/engine/intake/shot-facts.ts';
import type { OpenedFrame, PreviewOptions } from '../src/engine/preview-correction.ts';
import type { ProfileOptions } from '../src/engine/profile/make-profile.ts';
import type { Profile } from '../src/engine/profile/profile.ts';
import type { BracketOptions, BracketPhase } from '../src/engine/read-bracket.ts';
import {
  type FrameReport,
  type FrameSource,
  type ReadOptions,
  type ReadPhase,
  readFrame,
  rejudge,
} from '../src/engine/read-frame.ts';
import type { CameraResponse } from '../src/engine/response/camera-response.ts';
import type { FrameGlance } from '../src/engine/sorting/frame-glance.ts';
import type { ToldKind } from '../src/engine/sorting/frame-kind.ts';
import { browserPlatform } from './browser-platform.ts';

// fetched when first asked for: a first reading needs neither
const correcting = () => fetchedPart('corrects frames', () => import('./correcting-engine.ts'));
const sorting = () => fetchedPart('sorts a shoot', () => import('./sorting-engine.ts'));
const bracketing = () => fetchedPart('reads brackets', () => import('../src/engine/read-bracket.ts'));

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
  /** Tells that the worker is not computing; where it hangs, nothing is told any more. */
  answers: () => true,
  async read(
    files: readonly NamedBlob[],
    options: ReadOptions,
    report: Remote<ReportProgress & ProxyMarked> | null,
  ) {
    try {
      const sources = await Promise.all(files.map(readBytes));
      // what refuses a file early lets go of whom to tell
      const looked =
        report &&
        firstLook(sources[0]!, browserPlatform)
          .then((look) => look && tellLook(look, report))
          .catch(() => {});
      const platform = looked ? decodingAfter(looked, browserPlatform) : browserPlatform;
      return await readFrame(sources, options, platform, (phase, fraction) => {
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
      const { readBracket } = await bracketing();
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
      const { correctFrame } = await correcting();
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
    const { openToCorrect } = await correcting();
    return openToCorrect(await readBytes(file), browserPlatform, response);
  },
  /** Looks at a frame in small, for telling a shoot's frames apart. */
  async glance(file: NamedBlob): Promise<FrameLook> {
    const { glanceAtFrame } = await sorting();
    return glanceAtFrame(await readBytes(file), browserPlatform);
  },
  async sortShoot(glances: readonly FrameGlance[]): Promise<ToldKind[]> {
    return (await sorting()).sortShoot(glances);
  },
  async previewCorrection(
    frame: OpenedFrame,
    profile: Profile,
    options: PreviewOptions,
    blank: OpenedFrame | null,
  ) {
    return (await correcting()).previewCorrection(frame, profile, options, blank);
  },
  async frameDifferences(frame: FrameToCorrect, profile: Profile, blank?: ShotFacts): Promise<string[]> {
    return (await correcting()).frameDifferences(frame, profile, blank);
  },
  rejudge,
  async profile(report: FrameReport, options?: ProfileOptions): Promise<Profile> {
    return (await correcting()).makeProfile(report, options);
  },
  async gainPicture(profile: Profile, size: PictureSize, format: 'tiff' | 'png'): Promise<GainBlob> {
    const { gainPicture } = await correcting();
    const { parts, mime, ...facts } = await gainPicture(profile, size, format, browserPlatform);
    return { ...facts, blob: new Blob(parts as Uint8Array<ArrayBuffer>[], { type: mime }) };
  },
  async rampFigures(profile: Profile): Promise<string> {
    return (await correcting()).rampFigures(profile);
  },
};

/** Decodes beside the look, and hands the pixels on after it: what comes then would keep the look from being told. */
function decodingAfter(looked: Promise<unknown>, platform: Platform): Platform {
  return {
    ...platform,
    async decodePicture(bytes, type) {
      const [picture] = await Promise.all([platform.decodePicture(bytes, type), looked]);
      return picture;
    },
  };
}

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
