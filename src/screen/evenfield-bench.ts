import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { EngineClient } from '../../workers/engine-client.ts';
import type { Aim } from '../engine/aim.ts';
import type { ProfileOptions } from '../engine/profile/make-profile.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { Reading } from '../engine/reading.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import type { Setup } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { KeptResponses } from '../sources/kept-responses.ts';
import type { OneSource } from '../sources/open-source.ts';
import type { SampleFrame } from '../sources/sample-list.ts';
import { setupAtTake } from '../takes/setup-after.ts';
import { publicTake, type Take } from '../takes/take.ts';
import type { BenchElement, BenchReadOptions } from './bench-element.ts';
import { BenchSession } from './bench-session.ts';
import { BenchSettings } from './bench-settings.ts';
import './evenfield-incoming.ts';
import type { RegionWish } from './evenfield-map-region.ts';
import { REPORT_PARTS } from './evenfield-report.ts';
import type { OpenedShoot } from './opened-shoot.ts';
import './evenfield-samples.ts';
import type { ChosenSecondFrame } from './evenfield-second-frame.ts';
import './evenfield-setup-sentence.ts';
import type { SortedSet } from './evenfield-sort.ts';
import './evenfield-status.ts';
import { benchStyles } from './evenfield-bench.styles.ts';
import type { TakeNote } from './evenfield-takes-list.ts';
import { FollowedShoot } from './followed-shoot.ts';
import { FrameDrop } from './frame-drop.ts';
import { JobDesk } from './job-desk.ts';
import type { JudgedBy } from './judged-takes.ts';
import { LeaveGuard } from './leave-guard.ts';
import { paper, type } from './paper.ts';
import { ProposedFrames } from './proposed-frames.ts';
import { savedName, saveJson } from './save-json.ts';
import { asRoleWish } from './second-frame-wish.ts';
import { FOLDER_DROPPED_WORDS } from './words/follow-words.ts';
import type { SecondFrameKind } from './words/second-frame-words.ts';
import { spokenVerdict } from './words/take-words.ts';

/** The whole tool as one element; what others may build on is `bench-element.ts`. */
@customElement('evenfield-bench')
export class EvenfieldBench extends BenchSettings implements BenchElement {
  static override styles = [paper, type, benchStyles];

  protected readonly session = new BenchSession(() => new EngineClient(), this.told, this.keptShoots);
  private readonly kept = new KeptResponses();
  private readonly shoot = new FollowedShoot(
    (file, as) => this.session.readFollowed(file, as, this.byKept).finally(() => this.showNewest()),
    this.folderMemory,
  );
  private readonly drop = new FrameDrop(
    this,
    (files) => this.readPicked(files),
    (folder) => this.shoot.follow(folder),
    () => {
      this.slip = FOLDER_DROPPED_WORDS;
    },
  );
  private readonly jobs = new JobDesk(this.session, this.keptShoots, (words) => {
    this.slip = words;
  });
  protected readonly leaving = new LeaveGuard(
    this,
    () => this.session.isWorkedOn && !this.keptShoots.isAllKept,
  );

  /** Frames that a sorted shoot proposes for correction. */
  @state() private toCorrect: ProposedFrames | null = null;

  /** What was read, oldest first. */
  get takes(): readonly Take[] {
    return this.session.takes.map(publicTake);
  }

  override updated(): void {
    this.keptShoots.keep(this.session);
  }

  override disconnectedCallback(): void {
    this.shoot.stop();
    this.session.dispose();
    super.disconnectedCallback();
  }

  /**
   * Reads one frame, or several of one unchanged set-up averaged: files, bytes, or addresses as text. A second frame
   * (`role`) is no take; it stays beside the newest, which is judged anew with it and told by event.
   *
   * @throws {@link ReadFailure} with code, message and file name; takes and settings are then as before. RangeError
   * for a wish that can't be met.
   */
  async read(source: OneSource | readonly OneSource[], options: BenchReadOptions = {}): Promise<Reading> {
    const isSeveral = Array.isArray(source);
    const reading = await this.session.read(isSeveral ? source : [source as OneSource], options);
    this.showNewest();
    return reading;
  }

  /** @throws {@link ReadFailure}; RangeError where the reading is none of the takes'. */
  profile(reading: Reading, options: ProfileOptions = {}): Promise<Profile> {
    return this.session.profile(reading, options);
  }

  override render() {
    const { takes, shown, fetching, progress, failure, setup, tolerance, aim } = this.session;
    return html`<div
      class=${this.drop.isOver ? 'page over' : 'page'}
      @evenfield-picked=${(event: CustomEvent<File[]>) => this.readPicked(event.detail)}
      @evenfield-sample=${this.readSample}
      @evenfield-answer=${this.answered}
      @evenfield-shoot-again=${(event: CustomEvent<File[]>) => this.readFiles(event.detail, true)}
      @evenfield-new-setup=${(event: CustomEvent<File[]>) => this.readFiles(event.detail, false)}
      @evenfield-second-frame=${(event: CustomEvent<ChosenSecondFrame>) => this.readSecond(event.detail)}
      @evenfield-leave-out=${(event: CustomEvent<SecondFrameKind>) => this.session.leaveOut(event.detail)}
      @evenfield-note=${(event: CustomEvent<TakeNote>) => this.session.note(event.detail.id, event.detail.note)}
      @evenfield-region=${(event: CustomEvent<RegionWish>) => this.readAgain(event.detail)}
      @evenfield-read-by=${({ detail }: CustomEvent<CameraResponse | null>) => this.show(this.session.readAgain(undefined, detail))}
      @evenfield-cancel=${() => this.session.cancel()}
      @evenfield-setup=${(event: CustomEvent<Setup>) => this.judgeBy({ setup: event.detail }, shown?.id)}
      @evenfield-tolerance=${(event: CustomEvent<Tolerance>) => this.judgeBy({ tolerance: event.detail })}
      @evenfield-aim=${(event: CustomEvent<Aim>) => this.judgeBy({ aim: event.detail })}
      @evenfield-slip=${this.tellSlip}
      @evenfield-unit=${this.chooseUnit}
      @evenfield-go-on=${(event: CustomEvent<OpenedShoot>) => this.session.goOn(event.detail)}
      @evenfield-sorted=${this.readSorted}
      @evenfield-show-take=${(event: CustomEvent<string>) => this.showTake(event.detail)}
      @evenfield-delete-take=${(event: CustomEvent<string>) => this.session.delete(event.detail)}
      @evenfield-take-back=${() => this.session.takeBack()}
      @evenfield-job=${(event: CustomEvent<Profile | null>) => this.jobs.save(event.detail, this.unit)}
      @evenfield-save=${() => shown && saveJson(savedName(shown.reading.frame.name, 'reading'), shown.reading)}
    >
      <evenfield-incoming part="incoming"
        .shoot=${this.shoot}
        .kept=${this.keptShoots}
        .hasTakes=${takes.length > 0}
        .tolerance=${tolerance}
        .aim=${aim}
        .hasAnswers=${this.session.hasAnswers}
        .deleted=${this.session.deleted}
      ></evenfield-incoming>
      <evenfield-status part="status"
        .progress=${progress}
        .failure=${failure}
        .slip=${this.slip}
        .fetching=${fetching}
        .says=${shown === undefined ? null : spokenVerdict(shown, tolerance)}
        .hasTakes=${takes.length > 0}
      ></evenfield-status>
      <evenfield-setup-sentence part="setup"
        .setup=${shown?.setup ?? setup}
        .standsNow=${shown === undefined ? setup : setupAtTake(takes, shown.id)}
        .tolerance=${tolerance}
        .aim=${aim}
        .unit=${this.unit}
      ></evenfield-setup-sentence>
      ${
        shown === undefined
          ? nothing
          : html`<evenfield-report part="report" exportparts=${REPORT_PARTS}
            .take=${shown}
            .takes=${takes}
            .answers=${this.session.answers}
            .deleted=${this.session.deleted}
            .tolerance=${tolerance}
            .unit=${this.unit}
            .fileUnderWay=${progress?.fileName ?? null}
            .toCorrect=${this.toCorrect}
          ></evenfield-report>`
      }
      <evenfield-samples part="samples"></evenfield-samples>
    </div>`;
  }

  /** Frames picked or dropped after a move was answered are the next take of the set-up. */
  private async readPicked(files: readonly File[]): Promise<void> {
    const frames = await this.jobs.framesAmong(files);
    if (frames.length > 0) this.readFiles(frames, this.session.hasAnswers);
  }

  /** A shoot's blank begins a set-up; once it is read, its subjects are where frames are corrected. */
  private readSorted({ detail: { blank, subjects } }: CustomEvent<SortedSet>): void {
    this.session.cancel();
    const handOn = (reading: Reading) => {
      this.toCorrect = new ProposedFrames(subjects);
      return reading;
    };
    this.show(this.session.read([blank], {}, this.byKept).then(handOn));
  }

  private readSecond({ files, role }: ChosenSecondFrame): void {
    this.session.cancel();
    this.show(this.session.read(files, asRoleWish(role)));
  }

  /** What the page itself reads goes by the responses that are kept on this machine. */
  private get byKept() {
    return { responses: this.kept.used() };
  }

  private readFiles(files: readonly File[], isSameSetup: boolean): void {
    this.session.cancel(); // whoever picks a new file is done with waiting for the last
    this.show(
      isSameSetup ? this.session.readNext(files, this.byKept) : this.session.read(files, {}, this.byKept),
    );
  }

  private judgeBy(settings: JudgedBy, takeId?: string): void {
    this.slip = null;
    void this.session.judgeBy(settings, takeId);
  }

  private readAgain({ region, refuse }: RegionWish): void {
    this.session.cancel();
    this.session.readAgain(region).catch(refuse);
  }

  private readSample({ detail: { address, setup } }: CustomEvent<SampleFrame>): void {
    this.session.cancel();
    this.scrollIntoView({ block: 'start' }); // the samples lie at the foot of the page, the report at its head
    this.show(this.session.read([address], {}, { setup }));
  }

  private show(reading: Promise<Reading>): void {
    reading.then(() => this.showNewest()).catch(() => {}); // the failure is shown and told by event
  }

  private showNewest(): void {
    void this.session.show(null);
    this.slip = null;
  }

  /** An older take is shown from its verdict on; the button that chose it may lie far below. */
  private async showTake(id: string): Promise<void> {
    await this.session.show(id);
    await this.updateComplete;
    this.renderRoot.querySelector('evenfield-report')?.scrollIntoView({ block: 'start' });
  }
}
