import type { EngineClient } from '../../workers/engine-client.ts';
import type { Stroke } from '../engine/correct/matte/brush.ts';
import type { CorrectionPreview, OpenedFrame } from '../engine/preview-correction.ts';
import type { Profile } from '../engine/profile/profile.ts';
import { asReadFailure } from '../sources/read-failure.ts';
import type { FullTake } from '../takes/take.ts';
import { type CorrectionWishes, FIRST_WISHES, profileWishes } from './correction-wishes.ts';
import { LastOpened } from './last-opened.ts';
import { sameData } from './same-data.ts';
import { type SubjectFrame, subjectFrame } from './subject-frame.ts';
import { isTriedWith, type TriedCorrection, triedWith } from './tried-correction.ts';

export type DeskEngine = Pick<
  EngineClient,
  | 'profile'
  | 'openToCorrect'
  | 'differences'
  | 'previewCorrection'
  | 'gainPicture'
  | 'rampFigures'
  | 'dispose'
>;

/** A preview, and which frame it is of. */
export interface ShownPreview {
  readonly of: number;
  readonly preview: CorrectionPreview;
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
  /** Why the correction can't be tried on the frame that is shown, as it is wished. */
  tryFailure: string | null = null;
  /** Why nothing can be tried. */
  failure: string | null = null;

  protected take: FullTake | null = null;
  private engine: DeskEngine | null = null;
  private profileBefore: Profile | null = null;
  private readonly opened = new LastOpened();
  /** `undefined` until it was opened, `null` where it can't be. */
  protected blank: OpenedFrame | null | undefined;
  private tried: TriedCorrection | null = null;
  private isAtWork = false;
  private isAsked = false;
  private isClosed = false;
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
  correctBy(take: FullTake): void {
    if (take === this.take) return;
    const isReadAlike = sameData(take.report.readBy.response, this.take?.report.readBy.response ?? null);
    if (take.frames[0] !== this.take?.frames[0] || !isReadAlike) this.blank = undefined;
    if (!isReadAlike) this.opened.forgetAll();
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

  /** Paints on the frame that is shown; `null` takes its last stroke back. */
  stroke(stroke: Stroke | null): void {
    const frame = this.shownFrame;
    if (frame === null) return;
    const brush = stroke === null ? frame.brush.slice(0, -1) : [...frame.brush, stroke];
    this.change(frame.id, { brush, outcome: null });
    void this.work();
  }

  /** Leaves all as it stands; {@link resume} goes on. */
  dispose(): void {
    this.isClosed = true;
    this.engine?.dispose();
    this.engine = null;
  }

  resume(): void {
    this.isClosed = false;
    void this.work();
  }

  protected change(id: number, part: Partial<SubjectFrame>): void {
    this.frames = this.frames.map((frame) => (frame.id === id ? { ...frame, ...part } : frame));
    this.changed();
  }

  private forgetProfile(): void {
    this.profileBefore = this.profile ?? this.profileBefore;
    this.profile = null;
    this.failure = null;
  }

  /** Does one thing after the other until there is none left. */
  private async work(): Promise<void> {
    this.isAsked = true; // also while the last step is found to be the last
    if (this.isAtWork) return;
    this.isAtWork = true;
    while (this.isAsked) {
      this.isAsked = false;
      while (await this.nextStep()) this.changed();
    }
    this.isAtWork = false;
    this.changed();
  }

  /** What is looked at comes first, then what has not been held against the blank. Whether there was anything to do. */
  private async nextStep(): Promise<boolean> {
    const { take, frames, failure } = this;
    if (this.isClosed || take === null || frames.length === 0 || failure !== null) return false;
    if (this.profile === null) return this.makeProfile(take);
    if (this.blank === undefined) return this.openBlank(take);
    const frame = this.shownFrame;
    if (frame !== null && frame.refusal === null && !this.isTried(frame)) return this.tryOn(frame);
    const next = frames.find(({ flags, refusal }) => flags === null && refusal === null);
    return next === undefined ? false : this.lookAt(next, this.profile);
  }

  private async makeProfile(take: FullTake): Promise<true> {
    const wished = profileWishes(this.wishes);
    try {
      const made = await this.running().profile(take.report, wished);
      if (take !== this.take || !sameData(wished, profileWishes(this.wishes))) return true;
      const isSame = this.profileBefore !== null && sameData(made, this.profileBefore);
      this.profile = isSame ? this.profileBefore : made;
      if (!isSame) this.frames = this.frames.map((frame) => ({ ...frame, flags: null }));
    } catch (error) {
      if (!this.isClosed) this.failure = asReadFailure(error, null).message;
    }
    return true;
  }

  private async openBlank({ frames: [file], report }: FullTake): Promise<true> {
    const opening = file && this.running().openToCorrect(file, report.readBy);
    const blank = (await opening?.catch(() => null)) ?? null;
    if (file === this.take?.frames[0]) this.blank = blank;
    return true;
  }

  private async tryOn(frame: SubjectFrame): Promise<true> {
    const profile = this.profile!;
    const opened = await this.open(frame);
    if (opened === null) return true;
    const trying = triedWith(frame, profile, this.wishes);
    const { light, brush } = trying;
    const options = light.treat === 'background-only' ? { ...light, brush } : light;
    try {
      const preview = await this.running().previewCorrection(opened, profile, options, this.blank ?? null);
      this.shown = { of: frame.id, preview };
      this.tryFailure = null;
      this.change(frame.id, { flags: preview.flags });
    } catch (error) {
      this.tryFailure = asReadFailure(error, null).message; // of these wishes: others may do
    }
    this.tried = trying;
    return true;
  }

  private async lookAt(frame: SubjectFrame, profile: Profile): Promise<true> {
    const known = frame.known ?? (await this.open(frame))?.known;
    if (!known) return true;
    const flags = await this.running()
      .differences(known, profile, this.blank?.known.shot)
      .catch(() => []); // of a worker that was lost: they come again with the corrected file
    this.change(frame.id, { flags });
    return true;
  }

  /** `null` where the file can't be opened, which is then said of it. */
  private async open(frame: SubjectFrame): Promise<OpenedFrame | null> {
    try {
      const opened = await this.opened.open(frame.id, () =>
        this.running().openToCorrect(frame.file, this.take!.report.readBy),
      );
      if (frame.known === null) this.change(frame.id, { known: opened.known });
      return opened;
    } catch (error) {
      if (!this.isClosed) this.change(frame.id, { refusal: asReadFailure(error, null).message });
      return null;
    }
  }

  private isTried(frame: SubjectFrame): boolean {
    return isTriedWith(this.tried, frame, this.profile, this.wishes);
  }

  protected running(): DeskEngine {
    this.engine ??= this.startEngine();
    return this.engine;
  }
}
