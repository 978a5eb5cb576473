import type { CorrectedBlob } from '../../workers/engine-api.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import type { CorrectPhase } from '../engine/correct-frame.ts';
import type { Profile } from '../engine/profile/profile.ts';
import { type OneSource, openSource, sourceName } from '../sources/open-source.ts';
import { asReadFailure, type ReadFailure } from '../sources/read-failure.ts';
import type { BenchCorrectOptions, BenchProgress } from './bench-element.ts';

export type CorrectProgress = BenchProgress<CorrectPhase>;

/** A wish that is not understood is refused: a frame corrected otherwise than asked would be taken for what it is not. */
const KNOWN: { readonly [Option in keyof BenchCorrectOptions]-?: readonly unknown[] | null } = {
  format: ['tiff', 'png', 'jpeg'],
  bits: [8, 16],
  treat: ['everything', 'background-only', 'ramp-only'],
  neutral: [true, false],
  blank: null,
  levelEv: null,
  brush: null,
  response: null,
  notes: ['all', 'impersonal'],
};

/** Corrects single frames for whoever asks the element, in a worker of its own that is started at the first one. */
export class BenchCorrection {
  private readonly startEngine: () => Pick<EngineClient, 'correct' | 'dispose'>;
  private readonly told: {
    progress: (progress: CorrectProgress) => void;
    failure: (failure: ReadFailure) => void;
  };
  private engine: Pick<EngineClient, 'correct' | 'dispose'> | null = null;

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
    const name = sourceName(source);
    try {
      const { blank, ...plain } = options;
      const file = await openSource(source);
      const withBlank = blank === undefined ? plain : { ...plain, blank: await openSource(blank) };
      this.engine ??= this.startEngine();
      const onProgress = (phase: CorrectPhase, fraction: number) => this.told.progress({ phase, fraction });
      return await this.engine.correct(file, profile, withBlank, { onProgress });
    } catch (error) {
      const failure = asReadFailure(error, name);
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
    if (!(name in KNOWN)) throw new RangeError(`frames can’t be corrected with the option "${name}" yet`);
    const allowed = KNOWN[name as keyof BenchCorrectOptions];
    if (allowed && value !== undefined && !allowed.includes(value))
      throw new RangeError(`${name} is ${JSON.stringify(value)}; expected one of: ${allowed.join(', ')}`);
  }
  if (options.treat === 'background-only' && options.blank === undefined)
    throw new RangeError('to correct the background alone, its blank frame is needed: options.blank');
}
