import type { EngineClient } from '../../workers/engine-client.ts';
import type { FrameLook } from '../engine/glance-at-frame.ts';
import type { FrameKind, ToldKind } from '../engine/sorting/frame-kind.ts';
import { type ProposedSet, proposedSet } from '../engine/sorting/proposed-set.ts';
import { asReadFailure } from '../sources/read-failure.ts';

export interface SortedFrame {
  readonly file: File;
  /** `null` until it was looked at, and where it can't be. */
  readonly look: FrameLook | null;
  readonly told: ToldKind | null;
  /** As somebody said; `null` where nobody did. */
  readonly said: FrameKind | null;
  /** Why it can't be looked at. */
  readonly refusal: string | null;
}

export type SortEngine = Pick<EngineClient, 'glance' | 'sortShoot' | 'dispose'>;

/** As many frames are looked at together. */
const WORKERS = 2;

/**
 * A shoot's frames told apart: looked at in small, one after another in two workers, then told together, since what a
 * frame is shows beside its neighbours. What somebody says of one stands.
 * @event change - whenever anything of it did
 */
export class SortDesk extends EventTarget {
  frames: readonly SortedFrame[] = [];
  /** How many were looked at, while they are; `null` otherwise. */
  looked: number | null = null;
  /** Why frames that were looked at are not told apart. */
  trouble: string | null = null;
  private turn = 0;
  private engines: SortEngine[] = [];

  constructor(private readonly startEngine: () => SortEngine) {
    super();
  }

  /** What is to be corrected, and by which blank. */
  get set(): ProposedSet {
    return proposedSet(this.frames.map((frame) => kindOf(frame) ?? 'badly-exposed'));
  }

  /** Looks at the frames of a shoot, in the order they were taken. */
  async sort(files: readonly File[]): Promise<void> {
    this.stop();
    const turn = this.turn;
    this.frames = files.map((file) => ({ file, look: null, told: null, said: null, refusal: null }));
    this.looked = 0;
    this.trouble = null;
    this.changed();
    const waiting = [...this.frames.keys()];
    this.engines = Array.from({ length: Math.min(WORKERS, files.length) }, () => this.startEngine());
    await Promise.all(this.engines.map((engine) => this.lookThrough(engine, waiting, turn)));
    if (turn !== this.turn) return;
    this.frames = inOrderTaken(this.frames);
    await this.tell(turn);
    if (turn !== this.turn) return;
    this.looked = null;
    this.letGo();
    this.changed();
  }

  /** What a frame is, by the word of who was there. */
  say(index: number, kind: FrameKind): void {
    this.frames = this.frames.map((frame, i) => (i === index ? { ...frame, said: kind } : frame));
    this.changed();
  }

  /** Does no more; what was told stays. */
  stop(): void {
    this.turn++;
    this.looked = null;
    this.letGo();
    this.changed();
  }

  /** Puts the frames away. */
  clear(): void {
    this.frames = [];
    this.stop();
  }

  private async lookThrough(engine: SortEngine, waiting: number[], turn: number): Promise<void> {
    for (let at = waiting.shift(); at !== undefined && turn === this.turn; at = waiting.shift()) {
      const { file } = this.frames[at]!;
      const found = await engine.glance({ name: file.name, blob: file }).then(
        (look) => ({ look }),
        (error: unknown) => ({ refusal: asReadFailure(error, file.name).message }),
      );
      if (turn !== this.turn) return;
      this.frames = this.frames.map((frame, i) => (i === at ? { ...frame, ...found } : frame));
      this.looked = (this.looked ?? 0) + 1;
      this.changed();
    }
  }

  private async tell(turn: number): Promise<void> {
    const seen = this.frames.flatMap(({ look }) => (look === null ? [] : [look.glance]));
    const told = await this.engines[0]?.sortShoot(seen).catch((error: unknown) => {
      if (turn === this.turn) this.trouble = asReadFailure(error, null).message;
      return null;
    });
    if (!told || turn !== this.turn) return;
    let next = 0;
    this.frames = this.frames.map((frame) =>
      frame.look === null ? frame : { ...frame, told: told[next++]! },
    );
  }

  private letGo(): void {
    for (const engine of this.engines) engine.dispose();
    this.engines = [];
  }

  private changed(): void {
    this.dispatchEvent(new Event('change'));
  }
}

/** After every time that a camera writes. */
const LAST = '9999-99';

/** `null` where nothing is known of it. */
export function kindOf({ said, told }: SortedFrame): FrameKind | null {
  return said ?? told?.kind ?? null;
}

/** By the time in the file where all that could be looked at have one, and by name, as cameras count. */
function inOrderTaken(frames: readonly SortedFrame[]): SortedFrame[] {
  const byName = new Intl.Collator('en', { numeric: true });
  const timeOf = ({ look }: SortedFrame) => look?.exposure?.takenAt ?? null;
  const byNames = frames.toSorted((a, b) => byName.compare(a.file.name, b.file.name));
  if (frames.some((frame) => frame.look !== null && timeOf(frame) === null)) return byNames;
  // one that can't be looked at comes last: it has no part in what is told of the others
  return byNames.toSorted((a, b) => (timeOf(a) ?? LAST).localeCompare(timeOf(b) ?? LAST));
}
