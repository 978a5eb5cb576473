import type { EngineClient } from '../../workers/engine-client.ts';
import type { BracketOptions, BracketPhase } from '../engine/read-bracket.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import { type OneSource, openSource, sourceName } from '../sources/open-source.ts';
import { asReadFailure, type ReadFailure } from '../sources/read-failure.ts';
import type { BenchProgress } from './bench-element.ts';

export type BracketProgress = BenchProgress<BracketPhase>;

type BracketEngine = Pick<EngineClient, 'readBracket' | 'dispose'>;

/** Recovers responses in a worker of its own, which is started at the first bracket and ended after each. */
export class BenchBracket {
  private readonly startEngine: () => BracketEngine;
  private readonly told: {
    progress: (progress: BracketProgress) => void;
    failure: (failure: ReadFailure) => void;
  };
  private readonly underWay = new Set<AbortController>();

  constructor(startEngine: BenchBracket['startEngine'], told: BenchBracket['told']) {
    this.startEngine = startEngine;
    this.told = told;
  }

  /** @throws {@link ReadFailure} with code, message and file name; RangeError for a wish that can't be met. */
  async read(sources: readonly OneSource[], options: BracketOptions = {}): Promise<CameraResponse> {
    refuseUnknown(sources, options);
    const stop = new AbortController();
    this.underWay.add(stop);
    const engine = this.startEngine();
    try {
      const { signal } = stop;
      const files = await Promise.all(sources.map((source) => openSource(source, signal)));
      const onProgress = (phase: BracketPhase, fraction: number) => this.told.progress({ phase, fraction });
      return await engine.readBracket(files, options, { onProgress, signal });
    } catch (error) {
      const failure = asReadFailure(error, sources.length === 1 ? sourceName(sources[0]!) : null);
      this.told.failure(failure);
      throw failure;
    } finally {
      engine.dispose(); // decoded frames are large, and brackets rare
      this.underWay.delete(stop);
    }
  }

  /** Stops what is under way. */
  cancel(): void {
    for (const stop of this.underWay) stop.abort();
  }
}

function refuseUnknown(sources: readonly OneSource[], options: BracketOptions): void {
  if (!Array.isArray(sources) || sources.length === 0)
    throw new RangeError('a bracket is a list of frames, three or more');
  const unknown = Object.keys(options).find((name) => name !== 'stops');
  if (unknown !== undefined) throw new RangeError(`brackets can’t be read with the option "${unknown}"`);
  if (options.stops !== undefined && !Array.isArray(options.stops))
    throw new RangeError('stops is a list of numbers, one for each frame');
}
