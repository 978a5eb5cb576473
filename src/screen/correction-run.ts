import { batchWorkers } from '../../workers/batch-workers.ts';
import { type BatchOutcome, type BatchWishes, correctBatch } from '../../workers/correct-batch.ts';
import type { CorrectedBlob, NamedBlob } from '../../workers/engine-api.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import { correctedName, numberedName } from '../sources/corrected-name.ts';
import { downloadBlob } from '../sources/download-blob.ts';
import { FolderWriter, type WritableFolder } from '../sources/write-folder.ts';
import { CorrectionDesk } from './correction-desk.ts';
import { lightWishes, profileWishes } from './correction-wishes.ts';
import type { TakenAway } from './evenfield-correct-elsewhere.ts';
import { savedName, saveJson } from './save-json.ts';

/** The desk with what writes its frames: in several workers, each file as it is done, never over a source. */
export class CorrectionRun extends CorrectionDesk {
  /** How far all files are, 0 to 1; `null` while none is corrected. */
  whole: number | null = null;
  /** What became of the files that were last corrected. */
  outcomes: readonly BatchOutcome[] | null = null;
  private stop: AbortController | null = null;

  /** Frames that can be corrected. */
  get willing() {
    return this.frames.filter(({ refusal }) => refusal === null);
  }

  /** Corrects all frames that can be, into the folder or, where there is none, as downloads. */
  async correctAll(startEngine: () => EngineClient, folder: WritableFolder | null): Promise<void> {
    const { profile, willing } = this;
    if (profile === null || willing.length === 0 || this.whole !== null) return;
    const stop = new AbortController();
    this.stop = stop;
    this.whole = 0;
    this.outcomes = null;
    for (const { id } of willing)
      this.change(id, { progress: { phase: 'opening', fraction: 0 }, outcome: null });
    const engines = Array.from({ length: this.workers() }, startEngine);
    const files = willing.map(({ file }) => file);
    const outcomes = await correctBatch(files, {
      profile,
      options: this.options(),
      clients: engines.map((engine) => this.withBrushes(engine)),
      write: folder === null ? downloads() : intoFolder(folder),
      signal: stop.signal,
      onProgress: ({ file, phase, fraction, whole }) => {
        this.whole = whole;
        this.change(willing[file]!.id, { progress: { phase, fraction } });
      },
    });
    for (const engine of engines) engine.dispose();
    this.whole = null;
    this.stop = null;
    this.outcomes = outcomes;
    willing.forEach(({ id }, i) => {
      this.change(id, { progress: null, outcome: outcomes[i]! });
    });
    this.changed();
  }

  /** Saves the correction as it is wished, for use elsewhere. @throws EngineError where it can't be made. */
  async takeAway(what: TakenAway): Promise<void> {
    if (this.take === null) return;
    const engine = this.running();
    const profile = this.profile ?? (await engine.profile(this.take.report, profileWishes(this.wishes)));
    const { name, widthPx, heightPx } = profile.madeFrom;
    if (what === 'profile') saveJson(savedName(name, 'profile'), profile);
    else if (what === 'ramp') {
      const figures = await engine.rampFigures(profile);
      downloadBlob(savedName(name, 'ramp', 'txt'), new Blob([figures], { type: 'text/plain' }));
    } else {
      const { blob, extension } = await engine.gainPicture(profile, { widthPx, heightPx });
      downloadBlob(savedName(name, 'gains', extension), blob);
    }
  }

  /** Stops what is being corrected; what is written stays. */
  cancel(): void {
    this.stop?.abort();
  }

  override dispose(): void {
    this.cancel();
    super.dispose();
  }

  /** How many frames are corrected at once on this machine. */
  private workers(): number {
    const { willing, wishes } = this;
    const known = willing.flatMap(({ known }) => (known === null ? [] : known.widthPx * known.heightPx));
    const machine: { hardwareConcurrency?: number; deviceMemory?: number } = globalThis.navigator ?? {};
    return batchWorkers({
      frames: willing.length,
      largestPixels: known.length === 0 ? null : Math.max(...known),
      heldEach: wishes.treat === 'background-only' ? 2 : 1,
      processors: machine.hardwareConcurrency ?? 2,
      memoryGb: machine.deviceMemory ?? null,
    });
  }

  private options(): BatchWishes['options'] {
    const { writtenAs, treat, notes } = this.wishes;
    const blank = this.blankFile;
    const response = this.take?.report.readBy.response;
    return {
      ...lightWishes(this.wishes),
      format: writtenAs,
      notes,
      blankFacts: this.blank?.known.shot, // which not every treatment decodes the blank for
      ...(response && { response }),
      ...(treat === 'background-only' && blank && { blank }),
    };
  }

  /** Each frame has its own strokes. */
  private withBrushes(engine: EngineClient): BatchWishes['clients'][number] {
    const brushOf = (file: NamedBlob) => this.frames.find((frame) => frame.file === file)?.brush ?? [];
    return {
      correct: (file, profile, options, run) =>
        engine.correct(
          file,
          profile,
          options?.treat === 'background-only' ? { ...options, brush: brushOf(file) } : options,
          run,
        ),
    };
  }
}

type Write = BatchWishes['write'];

function intoFolder(folder: WritableFolder): Write {
  const writer = new FolderWriter(folder);
  return ({ name }, { extension, blob }: CorrectedBlob, signal) =>
    writer.write(correctedName(name, extension), blob, signal);
}

/** Names of one batch differ; what was downloaded before, the browser itself does not write over. */
function downloads(): Write {
  const given = new Map<string, number>();
  return async ({ name }, { extension, blob }: CorrectedBlob) => {
    const plain = correctedName(name, extension);
    const number = (given.get(plain) ?? 0) + 1;
    given.set(plain, number);
    const own = numberedName(plain, number);
    downloadBlob(own, blob);
    return own;
  };
}
