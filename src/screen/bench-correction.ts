import type { CorrectBlobOptions, CorrectedBlob, GainBlob } from '../../workers/engine-api.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import type { CorrectPhase } from '../engine/correct-frame.ts';
import type { PictureSize } from '../engine/export/gain-picture.ts';
import type { Profile } from '../engine/profile/profile.ts';
import { type OneSource, openSource, sourceName } from '../sources/open-source.ts';
import { asReadFailure, type ReadFailure } from '../sources/read-failure.ts';

export interface CorrectProgress {
  readonly phase: CorrectPhase;
  readonly fraction: number;
}

/** As the public contract has it: the blank is a source like any other. */
export interface BenchCorrectOptions extends Omit<CorrectBlobOptions, 'blank'> {
  readonly blank?: OneSource;
}

type CorrectingEngine = Pick<EngineClient, 'correct' | 'gainPicture' | 'rampFigures' | 'dispose'>;

/** A wish that is not understood is refused: a frame corrected otherwise than asked would be taken for what it is not. */
const KNOWN: { readonly [Option in keyof BenchCorrectOptions]-?: readonly unknown[] | null } = {
  format: ['tiff', 'png', 'jpeg'],
  bits: [8, 16],
  treat: ['everything', 'background-only', 'ramp-only'],
  neutral: [true, false],
  blank: null,
  levelEv: null,
  brush: null,
};

/** Corrects single frames, and makes what other editors need, in a worker of its own that is started at the first one. */
export class BenchCorrection {
  private readonly startEngine: () => CorrectingEngine;
  private readonly told: {
    progress: (progress: CorrectProgress) => void;
    failure: (failure: ReadFailure) => void;
  };
  private engine: CorrectingEngine | null = null;

  constructor(startEngine: BenchCorrection['startEngine'], told: BenchCorrection['told']) {
    this.startEngine = startEngine;
    this.told = told;
  }

  /** @throws {@link ReadFailure} with code, message and file name; RangeError for a wish that can't be met. */
  async correct(
    source: OneSource,
    profile: Profile,
    options: BenchCorrectOptions = {},
  ): Promise<CorrectedBlob> {
    refuseUnknown(options);
    return this.tellingFailure(sourceName(source), async () => {
      const { blank, ...plain } = options;
      const file = await openSource(source);
      const withBlank = blank === undefined ? plain : { ...plain, blank: await openSource(blank) };
      const onProgress = (phase: CorrectPhase, fraction: number) => this.told.progress({ phase, fraction });
      return await this.running().correct(file, profile, withBlank, { onProgress });
    });
  }

  /** @throws {@link ReadFailure} as {@link correct}. */
  gainPicture(profile: Profile, size: PictureSize, format: 'tiff' | 'png'): Promise<GainBlob> {
    return this.tellingFailure(profile.madeFrom.name, () =>
      this.running().gainPicture(profile, size, format),
    );
  }

  /** @throws {@link ReadFailure} as {@link correct}. */
  rampFigures(profile: Profile): Promise<string> {
    return this.tellingFailure(profile.madeFrom.name, () => this.running().rampFigures(profile));
  }

  private running(): CorrectingEngine {
    this.engine ??= this.startEngine();
    return this.engine;
  }

  /** Has a failure told once, as what a page expects of it. */
  private async tellingFailure<Result>(fileName: string, work: () => Promise<Result>): Promise<Result> {
    try {
      return await work();
    } catch (error) {
      const failure = asReadFailure(error, fileName);
      this.told.failure(failure);
      throw failure;
    }
  }

  dispose(): void {
    this.engine?.dispose();
    this.engine = null;
  }
}

function refuseUnknown(options: BenchCorrectOptions): void {
  for (const [name, value] of Object.entries(options)) {
    if (!(name in KNOWN)) throw new RangeError(`frames can't be corrected with the option "${name}" yet`);
    const allowed = KNOWN[name as keyof BenchCorrectOptions];
    if (allowed && value !== undefined && !allowed.includes(value))
      throw new RangeError(`${name} is ${JSON.stringify(value)}; expected one of: ${allowed.join(', ')}`);
  }
  if (options.treat === 'background-only' && options.blank === undefined)
    throw new RangeError('to correct the background alone, its blank frame is needed: options.blank');
}
