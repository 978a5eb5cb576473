import { EngineError } from '../../src/engine/engine-error.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import type { FrameReport } from '../../src/engine/read-frame.ts';
import type { BenchEngine } from '../../src/screen/bench-engine.ts';
import { BenchSession } from '../../src/screen/bench-session.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

/** A session over an engine that reads nothing, with all that was asked of the one and told by the other. */
export class SessionWatch {
  /** What the engine was asked, in order. */
  readonly calls: string[] = [];
  /** What the session told, in order. */
  readonly told: string[] = [];
  /** The engine answers a reading or a judgement only once this has come. */
  held: { read: Promise<void>; rejudge: Promise<void> } = {
    read: Promise.resolve(),
    rejudge: Promise.resolve(),
  };

  /** Files named "bad…" fail, "broken…" as by a defect. */
  readonly engine = (): BenchEngine => ({
    read: async (frames, { tolerance }, { signal, onProgress }) => {
      this.calls.push(`read ${frames.map(({ name }) => name).join('+')}`);
      onProgress?.('decoding', 0.5);
      await this.held.read;
      if (signal?.aborted) throw new EngineError('cancelled', 'stopped');
      if (frames[0]!.name.startsWith('bad')) throw new EngineError('not-an-image', 'that is no picture');
      if (frames[0]!.name.startsWith('broken')) throw new TypeError('undefined is not a function');
      return reportOf(frames[0]!.name, tolerance.name);
    },
    rejudge: async (report, { tolerance }, { signal } = {}) => {
      this.calls.push(`rejudge ${report.reading.frame.name} by ${tolerance.name}`);
      await this.held.rejudge;
      if (signal?.aborted) throw new EngineError('cancelled', 'stopped');
      return { ...report, reading: { ...report.reading }, judgedBy: tolerance.name } as FrameReport;
    },
    profile: async () => {
      throw new EngineError('cannot-write', 'no gains');
    },
    dispose() {},
  });

  /** An engine whose frames each need one slide of the light, and farther; judged anew, farther alone. */
  readonly engineWithMoves = (): BenchEngine => {
    const engine = this.engine();
    return {
      ...engine,
      read: async (...asked) => moved(await engine.read(...asked), [SLIDE, FARTHER]),
      rejudge: async (...asked) => moved(await engine.rejudge(...asked), [FARTHER]),
    };
  };

  session(engine: () => BenchEngine = this.engine): BenchSession {
    return new BenchSession(engine, {
      reading: (reading) => this.told.push(`reading ${reading.frame.name}`),
      progress: ({ phase }) => this.told.push(phase),
      failure: ({ code, fileName }) => this.told.push(`${code} ${fileName}`),
      changed: () => {},
    });
  }
}

const OUTCOME = { bringsEv: null, toward: null, caution: null };
const UNKNOWN = { rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null };
const SLIDE: Move = { ...OUTCOME, ...UNKNOWN, kind: 'slide-lamp', lamp: 0, toward: 0 };
const FARTHER: Move = { ...OUTCOME, kind: 'lamp-distance', lamp: 0, ratio: null };

function moved(report: FrameReport, moves: Move[]): FrameReport {
  return { ...report, reading: { ...report.reading, moves } };
}

function reportOf(name: string, judgedBy: string): FrameReport {
  const reading = readingFixture({ columns: 2, rows: 2 });
  const readBy = { camera: null, response: null };
  return {
    ...{ reading: { ...reading, frame: { ...reading.frame, name } }, readBy, judgedBy },
  } as unknown as FrameReport;
}

/** The name of the tolerance by which the stand-in engine judged last. */
export function judgedBy(report: FrameReport): string {
  return (report as unknown as { judgedBy: string }).judgedBy;
}

export const file = (name: string) => new File(['x'], name);

/** A promise and the way to let it come. */
export function heldBack(): { held: Promise<void>; letGo: () => void } {
  let letGo = () => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  return { held, letGo };
}
