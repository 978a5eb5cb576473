import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { EngineClient } from '../../workers/engine-client.ts';
import type { Stroke } from '../engine/correct/matte/brush.ts';
import type { Profile } from '../engine/profile/profile.ts';
import { folderToWrite, framesAmong, offersFolders } from '../sources/choose-folder.ts';
import { droppedFiles } from '../sources/dropped-files.ts';
import type { FullTake } from '../takes/take.ts';
import { CorrectionRun } from './correction-run.ts';
import type { CorrectionWishes } from './correction-wishes.ts';
import { correctStyles } from './evenfield-correct.styles.ts';
import './evenfield-correct-choose.ts';
import type { ChosenFiles } from './evenfield-correct-choose.ts';
import './evenfield-correct-elsewhere.ts';
import type { TakenAway } from './evenfield-correct-elsewhere.ts';
import './evenfield-correct-frames.ts';
import './evenfield-correct-pair.ts';
import './evenfield-correct-sentence.ts';
import './evenfield-correct-surface.ts';
import { LeaveGuard } from './leave-guard.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import type { ProposedFrames } from './proposed-frames.ts';
import { correctAllWords, DOWNLOADS, othersWords, summaryWords } from './words/correct-frame-words.ts';
import type { LengthUnit } from './words/length-words.ts';

/** Takes what is left of the unevenness out of the frames of the subject: chosen, looked at, corrected and written. */
@customElement('evenfield-correct')
export class EvenfieldCorrect extends OwnTaskElement {
  static override styles = [type, correctStyles];

  private readonly desk = new CorrectionRun(
    () => new EngineClient(),
    () => this.requestUpdate(),
  );
  protected readonly leaving = new LeaveGuard(this, () => this.desk.whole !== null);
  @state() private others = 0;
  @state() private trouble: string | null = null;

  @property({ attribute: false }) take!: FullTake;
  @property() unit: LengthUnit = 'cm';
  /** Frames proposed by whoever sorted a shoot; they take the place of those proposed before. */
  @property({ attribute: false }) toCorrect: ProposedFrames | null = null;
  private proposed: readonly number[] = [];
  /** Whether files are held over this part of the page. */
  @property({ type: Boolean, reflect: true }) over = false;

  /** What the frames are corrected by; `null` where none was made yet. */
  get profile(): Profile | null {
    return this.desk.profile;
  }

  constructor() {
    super();
    this.addEventListener('dragover', this.hold);
    this.addEventListener('dragleave', this.letGo);
    this.addEventListener('drop', this.dropped);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.desk.resume();
  }

  override disconnectedCallback(): void {
    this.desk.dispose();
    super.disconnectedCallback();
  }

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('take')) this.desk.correctBy(this.take);
    if (changed.has('toCorrect')) this.propose(this.toCorrect?.handOver() ?? []);
  }

  override render() {
    const { desk } = this;
    return html`<h2>Correct the frames</h2>
      <div
        class="how"
        @evenfield-wish=${(event: CustomEvent<Partial<CorrectionWishes>>) => desk.wish(event.detail)}
        @evenfield-slip=${this.slipped}
      >
        <div>
          <evenfield-correct-sentence .wishes=${desk.wishes} .offersFolders=${offersFolders()}></evenfield-correct-sentence>
          <evenfield-correct-choose
            .blankName=${this.take.frames[0]?.name ?? ''}
            @evenfield-chosen=${(event: CustomEvent<ChosenFiles>) => this.add(event.detail)}
            @evenfield-trouble=${(event: CustomEvent<string>) => this.tell(event.detail)}
          ></evenfield-correct-choose>
          ${this.others === 0 ? nothing : html`<p class="small quiet" role="status">${othersWords(this.others)}</p>`}
          <evenfield-correct-frames
            .frames=${desk.frames}
            .shownId=${desk.shownId}
            .isRunning=${desk.whole !== null}
            .unit=${this.unit}
            @evenfield-show-frame=${(event: CustomEvent<number>) => desk.show(event.detail)}
            @evenfield-drop-frame=${(event: CustomEvent<number>) => this.leaveOut(event.detail)}
          ></evenfield-correct-frames>
        </div>
        <evenfield-correct-surface .report=${this.take.report}></evenfield-correct-surface>
      </div>
      <div
        @evenfield-stroke=${(event: CustomEvent<Stroke>) => desk.stroke(event.detail)}
        @evenfield-stroke-back=${() => desk.stroke(null)}
      >
        ${this.pictures()}
      </div>
      ${this.doing()}
      <evenfield-correct-elsewhere
        @evenfield-take-away=${(event: CustomEvent<TakenAway>) => void this.takeAway(event.detail)}
      ></evenfield-correct-elsewhere>`;
  }

  private pictures() {
    const { desk } = this;
    const frame = desk.shownFrame;
    if (frame === null || frame.refusal !== null) return nothing;
    const isShown = desk.shown?.of === frame.id && desk.tryFailure === null;
    return html`<p class="small quiet trying" role="status">${desk.isTrying ? `Trying it on ${frame.file.name}…` : frame.file.name}</p>
      ${desk.tryFailure === null || desk.isTrying ? nothing : html`<p role="status">${desk.tryFailure}</p>`}
      ${
        isShown
          ? html`<evenfield-correct-pair
            .preview=${desk.shown!.preview}
            .treat=${desk.wishes.treat}
            .strokes=${frame.brush}
            .filePixels=${frame.known === null ? 1 : frame.known.widthPx * frame.known.heightPx}
            .frameWidthMm=${this.take.setup.frameWidthMm}
            .unit=${this.unit}
          ></evenfield-correct-pair>`
          : nothing
      }`;
  }

  private doing() {
    const { desk } = this;
    const { whole, willing, outcomes, failure } = desk;
    const says = failure ?? this.trouble;
    return html`<div class="doing">
        ${
          whole === null
            ? html`<button class="large all" ?disabled=${willing.length === 0 || desk.profile === null} @click=${this.correctAll}>${correctAllWords(willing.length)}</button>`
            : html`<progress aria-label="Correcting all frames" max="1" value=${whole}></progress>
              <button @click=${() => desk.cancel()}>Cancel correcting</button>`
        }
      </div>
      <p class="summary" role="status">${outcomes === null ? nothing : summaryWords(outcomes, desk.frames.length - willing.length, this.into)}</p>
      ${says === null ? nothing : html`<div role="alert"><p>${says}</p></div>`}`;
  }

  private into = '';

  private readonly correctAll = async () => {
    this.trouble = null;
    const isFolder = this.desk.wishes.into === 'folder' && offersFolders();
    try {
      const folder = isFolder ? await folderToWrite() : null;
      if (isFolder && folder === null) return; // none was chosen: nothing is written
      this.into = folder === null ? DOWNLOADS : `the folder ${folder.name}`;
      await this.desk.correctAll(() => new EngineClient(), folder);
    } catch (error) {
      this.trouble = `The folder can’t be written to (${error instanceof Error ? error.message : String(error)}). Choose another one, or the downloads.`;
    }
  };

  /** Told here, and not at the head of the page. */
  private slipped(event: CustomEvent<string | null>): void {
    event.stopPropagation();
    this.trouble = event.detail;
  }

  /** What an earlier shoot proposed was lit by another blank. */
  private propose(files: readonly File[]): void {
    if (files.length === 0) return;
    for (const id of this.proposed) this.desk.remove(id);
    this.desk.add(files);
    this.proposed = this.desk.frames.slice(-files.length).map(({ id }) => id);
  }

  /** Files chosen by themselves are tried whatever they are; of a folder, those that can be frames. */
  private add({ files, inFolders }: ChosenFiles): void {
    const { frames, others } = framesAmong(inFolders);
    this.tell(null);
    this.others = others;
    this.desk.add([...files, ...frames]);
  }

  private tell(trouble: string | null): void {
    this.trouble = trouble;
  }

  private async takeAway(what: TakenAway): Promise<void> {
    this.tell(null);
    await this.desk.takeAway(what).catch((error: unknown) => {
      this.tell(error instanceof Error ? error.message : String(error));
    });
  }

  private leaveOut(id: number): void {
    this.desk.remove(id);
    this.renderRoot.querySelector('evenfield-correct-choose')?.focus(); // the button goes with its frame
  }

  private readonly hold = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    this.over = true;
  };

  private readonly letGo = () => {
    this.over = false;
  };

  private readonly dropped = (event: DragEvent) => {
    this.over = false;
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    void droppedFiles(event.dataTransfer).then((dropped) => this.add(dropped));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct': EvenfieldCorrect;
  }
}
