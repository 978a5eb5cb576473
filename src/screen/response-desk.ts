import type { EngineClient } from '../../workers/engine-client.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import { KeptResponses } from '../sources/kept-responses.ts';
import { asReadFailure } from '../sources/read-failure.ts';
import { BenchBracket, type BracketProgress } from './bench-bracket.ts';
import { parseSteps, stepsSlipWords } from './words/response-words.ts';

/** A response as it is shown: kept for its camera, or recovered just now where nothing can be kept. */
export interface ShownResponse {
  readonly response: CameraResponse;
  readonly isUsed: boolean;
}

/** Recovers responses from picked files, keeps them for their cameras, and forgets them. */
export class ResponseDesk {
  progress: (BracketProgress & { readonly frames: number }) | null = null;
  /** Why there is no response, or why it is not kept. */
  trouble: string | null = null;
  /** What was recovered last, on this page. */
  private last: ShownResponse | null = null;
  private readonly bracket: BenchBracket;

  constructor(
    startEngine: () => Pick<EngineClient, 'readBracket' | 'dispose'>,
    private readonly changed: () => void,
    private readonly kept = new KeptResponses(),
  ) {
    this.bracket = new BenchBracket(startEngine, { progress: (news) => this.tell(news), failure: () => {} });
  }

  private frames = 0;
  /** Counts recoveries: what an earlier one leaves behind when it is stopped is not the present one's. */
  private turn = 0;

  /** The one of a camera; where there is none, what was recovered last, of whatever camera. */
  shownFor(camera: string | null): ShownResponse | null {
    return this.kept.of(camera) ?? this.last;
  }

  /** Recovers a response from files in the order of their names. @returns `null` where that fails, which is told. */
  async recover(files: readonly File[], steps: string): Promise<ShownResponse | null> {
    this.cancel();
    const turn = ++this.turn;
    this.progress = null;
    this.trouble = null;
    const stops = steps.trim() === '' ? undefined : parseSteps(steps);
    if (stops === null) {
      this.trouble = stepsSlipWords(steps.trim());
      this.changed();
      return null;
    }
    this.frames = files.length;
    this.tell({ phase: 'opening', fraction: 0 });
    const order = new Intl.Collator('en', { numeric: true });
    const sorted = files.toSorted((a, b) => order.compare(a.name, b.name));
    try {
      const response = await this.bracket.read(sorted, stops ? { stops } : {});
      const isUsed = this.kept.of(response.camera)?.isUsed ?? false;
      this.last = { response, isUsed };
      this.keep(this.last);
      return this.last;
    } catch (error) {
      const failure = asReadFailure(error, null);
      if (failure.code !== 'cancelled' && turn === this.turn) this.trouble = failure.message;
      return null;
    } finally {
      if (turn === this.turn) {
        this.progress = null;
        this.changed();
      }
    }
  }

  /** Sets whether its camera's pictures are to be read by a response; kept where the camera can be told from others. */
  use(response: CameraResponse, isUsed: boolean): void {
    this.trouble = null;
    this.last = { response, isUsed };
    this.keep(this.last);
    this.changed();
  }

  forget(camera: string | null): void {
    this.kept.forget(camera);
    if (this.last?.response.camera === camera) this.last = null;
    this.trouble = null;
    this.changed();
  }

  cancel(): void {
    this.bracket.cancel();
  }

  private keep({ response, isUsed }: ShownResponse): void {
    try {
      this.kept.keep(response, isUsed && response.camera !== null);
    } catch (error) {
      this.trouble = asReadFailure(error, null).message;
    }
  }

  private tell(news: BracketProgress): void {
    this.progress = { ...news, frames: this.frames };
    this.changed();
  }
}
