import type { EngineClient } from '../../workers/engine-client.ts';
import type { Stroke } from '../engine/correct/matte/brush.ts';
import type { CorrectionPreview, OpenedFrame } from '../engine/preview-correction.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { HeldTake } from '../takes/take.ts';
import { type CorrectionWishes, FIRST_WISHES, lightWishes, profileWishes } from './correction-wishes.ts';
import { LastOpened } from './last-opened.ts';
import { sameData } from './same-data.ts';
import { type SubjectFrame, subjectFrame } from './subject-frame.ts';

export type DeskEngine = Pick<
  EngineClient,
  'profile' | 'openToCorrect' | 'differences' | 'previewCorrection' | 'correct' | 'dispose'
>;

/** A preview, and which frame it is of. */
export interface ShownPreview {
  readonly of: number;
  readonly preview: CorrectionPreview;
}

/** What a preview was made with. */
interface Tried {
  readonly frame: SubjectFrame['id'];
  readonly brush: SubjectFrame['brush'];
  readonly profile: Profile;
  readonly light: ReturnType<typeof lightWishes>;
}

/**
 * The frames that are to be corrected and how: holds each against the blank, and tries the correction on the one that
 * is shown. One thing at a time in a worker of its own; what is asked for meanwhile is tried next, only the last of it.
 */
export class CorrectionDesk {
  wishes: CorrectionWishes = FIRST_WISHES;
  frames: readonly SubjectFrame[] = [];
  shownId: number | null = null;
  shown: ShownPreview | null = null;
  /** What the frames are corrected by; `null` until it is made anew. */
  profile: Profile | null = null;
  /** Why nothing can be tried. */
  failure: string | null = null;

  private take: HeldTake | null = null;
  private engine: DeskEngine | null = null;
  private profileBefore: Profile | null = null;
  private readonly opened = new LastOpened();
  /** `undefined` until it was opened, `null` where it can't be. */
  private blank: OpenedFrame | null | undefined;
  private tried: Tried | null = null;
  private isAtWork = false;
  private lastId = 0;

  constructor(
    private readonly startEngine: () => DeskEngine,
    protected readonly changed: () => void,
  ) {}

  get shownFrame(): SubjectFrame | null {
    return this.frames.find(({ id }) => id === this.shownId) ?? null;
  }

  /** Whether what is shown is not yet what was asked for. */
  get isTrying(): boolean {
    const frame = this.shownFrame;
    return this.isAtWork && frame !== null && frame.refusal === null && !this.isTried(frame);
  }

  /** The blank frame's file. */
  get blankFile() {
    return this.take?.frames[0] ?? null;
  }

  /** Corrects by another take, or by the same judged anew. */
  correctBy(take: HeldTake): void {
    if (take === this.take) return;
    if (take.frames[0] !== this.take?.frames[0]) this.blank = undefined;
    this.take = take;
    this.forgetProfile();
    void this.work();
  }

  wish(part: Partial<CorrectionWishes>): void {
    const before = this.wishes;
    this.wishes = { ...before, ...part };
    if (!sameData(profileWishes(before), profileWishes(this.wishes))) this.forgetProfile();
    this.changed();
    void this.work();
  }

  add(files: readonly File[]): void {
    const added = files.map((file) => subjectFrame(++this.lastId, file));
    this.frames = [...this.frames, ...added];
    this.shownId ??= added[0]?.id ?? null;
    this.changed();
    void this.work();
  }

  remove(id: number): void {
    const at = this.frames.findIndex((frame) => frame.id === id);
    this.frames = this.frames.filter((frame) => frame.id !== id);
    this.opened.forget(id);
    if (this.shownId === id) this.show((this.frames[at] ?? this.frames.at(-1))?.id ?? null);
    this.changed();
  }

  show(id: number | null): void {
    this.shownId = id;
    this.changed();
    void this.work();
  }

  stroke(stroke: Stroke): void {
    this.brush((strokes) => [...strokes, stroke]);
  }

  takeStrokeBack(): void {
    this.brush((strokes) => strokes.slice(0, -1));
  }

  dispose(): void {
    this.engine?.dispose();
    this.engine = null;
  }

  protected change(id: number, part: Partial<SubjectFrame>): void {
    this.frames = this.frames.map((frame) => (frame.id === id ? { ...frame, ...part } : frame));
    this.changed();
  }

  private brush(change: (strokes: readonly Stroke[]) => readonly Stroke[]): void {
    const frame = this.shownFrame;
    if (frame === null) return;
    this.change(frame.id, { brush: change(frame.brush), outcome: null });
    void this.work();
  }

  private forgetProfile(): void {
    this.profileBefore = this.profile ?? this.profileBefore;
    this.profile = null;
    this.failure = null;
  }

  /** Does one thing after the other until there is none left. */
  private async work(): Promise<void> {
    if (this.isAtWork) return;
    this.isAtWork = true;
    try {
      while (await this.nextStep()) this.changed();
    } finally {
      this.isAtWork = false;
      this.changed();
    }
  }

  /** What is looked at comes first, then what has not been held against the blank. Whether there was anything to do. */
  private async nextStep(): Promise<boolean> {
    const { take, frames, failure } = this;
    if (take === null || frames.length === 0 || failure !== null) return false;
    if (this.profile === null) return this.makeProfile(take);
    if (this.blank === undefined) return this.openBlank(take);
    const frame = this.shownFrame;
    if (frame !== null && frame.refusal === null && !this.isTried(frame)) return this.tryOn(frame);
    const next = frames.find(({ flags, refusal }) => flags === null && refusal === null);
    return next === undefined ? false : this.lookAt(next, this.profile);
  }

  private async makeProfile(take: HeldTake): Promise<true> {
    const wished = profileWishes(this.wishes);
    try {
      const made = await this.running().profile(take.report, wished);
      if (take !== this.take || !sameData(wished, profileWishes(this.wishes))) return true;
      const isSame = this.profileBefore !== null && sameData(made, this.profileBefore);
      this.profile = isSame ? this.profileBefore : made;
      if (!isSame) this.frames = this.frames.map((frame) => ({ ...frame, flags: null }));
    } catch (error) {
      this.failure = messageOf(error);
    }
    return true;
  }

  private async openBlank(take: HeldTake): Promise<true> {
    const file = take.frames[0];
    const blank = file
      ? await this.running()
          .openToCorrect(file)
          .catch(() => null)
      : null;
    if (take.frames[0] === this.take?.frames[0]) this.blank = blank;
    return true;
  }

  private async tryOn(frame: SubjectFrame): Promise<true> {
    const profile = this.profile!;
    const light = lightWishes(this.wishes);
    const { brush } = frame;
    try {
      const opened = await this.open(frame);
      const options = light.treat === 'background-only' ? { ...light, brush } : light;
      const preview = await this.running().previewCorrection(opened, profile, options, this.blank ?? null);
      this.shown = { of: frame.id, preview };
      this.change(frame.id, { flags: preview.flags });
    } catch (error) {
      this.change(frame.id, { refusal: messageOf(error) });
    }
    this.tried = { frame: frame.id, brush, profile, light };
    return true;
  }

  private async lookAt(frame: SubjectFrame, profile: Profile): Promise<true> {
    try {
      const known = frame.known ?? (await this.open(frame)).known;
      this.change(frame.id, { flags: await this.running().differences(known, profile) });
    } catch (error) {
      this.change(frame.id, { refusal: messageOf(error) });
    }
    return true;
  }

  private async open(frame: SubjectFrame): Promise<OpenedFrame> {
    const opened = await this.opened.open(frame.id, () => this.running().openToCorrect(frame.file));
    if (frame.known === null) this.change(frame.id, { known: opened.known });
    return opened;
  }

  private isTried({ id, brush }: SubjectFrame): boolean {
    const { tried } = this;
    return (
      tried !== null &&
      tried.frame === id &&
      tried.profile === this.profile &&
      tried.brush === brush &&
      sameData(tried.light, lightWishes(this.wishes))
    );
  }

  private running(): DeskEngine {
    this.engine ??= this.startEngine();
    return this.engine;
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
