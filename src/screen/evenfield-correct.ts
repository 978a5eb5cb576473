import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { EngineClient } from '../../workers/engine-client.ts';
import type { Stroke } from '../engine/correct/matte/brush.ts';
import { filesOfFolder, folderToWrite, framesAmong, offersFolders } from '../sources/choose-folder.ts';
import { droppedFiles } from '../sources/dropped-files.ts';
import { sampleSubject } from '../sources/sample-list.ts';
import type { HeldTake } from '../takes/take.ts';
import { CorrectionRun } from './correction-run.ts';
import type { CorrectionWishes } from './correction-wishes.ts';
import { correctStyles } from './evenfield-correct.styles.ts';
import './evenfield-correct-frames.ts';
import './evenfield-correct-pair.ts';
import './evenfield-correct-sentence.ts';
import './evenfield-correct-surface.ts';
import './evenfield-frame-picker.ts';
import { LeaveGuard } from './leave-guard.ts';
import { type } from './paper.ts';
import { correctAllWords, othersWords, summaryWords } from './words/correct-frame-words.ts';
import type { LengthUnit } from './words/length-words.ts';

/** Takes what is left of the unevenness out of the frames of the subject: chosen, looked at, corrected and written. */
@customElement('evenfield-correct')
export class EvenfieldCorrect extends LitElement {
  static override styles = [type, correctStyles];

  private readonly desk = new CorrectionRun(
    () => new EngineClient(),
    () => this.requestUpdate(),
  );
  protected readonly leaving = new LeaveGuard(this, () => this.desk.whole !== null);
  @state() private others = 0;
  @state() private sample: string | null = null;
  @state() private trouble: string | null = null;

  @property({ attribute: false }) take!: HeldTake;
  @property() unit: LengthUnit = 'cm';
  /** Whether files are held over this part of the page. */
  @property({ type: Boolean, reflect: true }) over = false;

  constructor() {
    super();
    this.addEventListener('dragover', this.hold);
    this.addEventListener('dragleave', this.letGo);
    this.addEventListener('drop', this.dropped);
  }

  override disconnectedCallback(): void {
    this.desk.dispose();
    super.disconnectedCallback();
  }

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (!changed.has('take')) return;
    const before = changed.get('take') as HeldTake | undefined;
    this.desk.correctBy(this.take);
    if (before?.frames[0]?.name !== this.take.frames[0]?.name) void this.findSample();
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
          ${this.choosing()}
          <evenfield-correct-frames
            .frames=${desk.frames}
            .shownId=${desk.shownId}
            .isRunning=${desk.whole !== null}
            @evenfield-show-frame=${(event: CustomEvent<number>) => desk.show(event.detail)}
            @evenfield-drop-frame=${(event: CustomEvent<number>) => this.leaveOut(event.detail)}
          ></evenfield-correct-frames>
        </div>
        <evenfield-correct-surface .report=${this.take.report}></evenfield-correct-surface>
      </div>
      <div
        @evenfield-stroke=${(event: CustomEvent<Stroke>) => desk.stroke(event.detail)}
        @evenfield-stroke-back=${() => desk.takeStrokeBack()}
      >
        ${this.pictures()}
      </div>
      ${this.doing()}`;
  }

  private choosing() {
    return html`<div class="choose" @evenfield-picked=${this.picked}>
        <evenfield-frame-picker label="Choose frames to correct…"></evenfield-frame-picker>
        ${
          offersFolders()
            ? html`<button @click=${this.chooseFolder}>Choose a whole folder…</button>`
            : html`<label class="button">Choose a whole folder…<input class="unseen" type="file" webkitdirectory @change=${this.pickedFolder} /></label>`
        }
        ${this.sample === null ? nothing : html`<button @click=${this.addSample}>Try it on a sample frame</button>`}
        <span class="small quiet">or drop frames or a folder here: shot with this light, focus positions too</span>
      </div>
      ${this.others === 0 ? nothing : html`<p class="small quiet" role="status">${othersWords(this.others)}</p>`}`;
  }

  private pictures() {
    const { desk } = this;
    const frame = desk.shownFrame;
    if (frame === null || frame.refusal !== null) return nothing;
    const isShown = desk.shown?.of === frame.id;
    return html`<p class="small quiet trying" role="status">${desk.isTrying ? `Trying it on ${frame.file.name}…` : frame.file.name}</p>
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
      this.into = folder === null ? 'the browser’s downloads' : `the folder ${folder.name}`;
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

  private picked(event: CustomEvent<File[]>): void {
    event.stopPropagation(); // elsewhere a picked frame is the next take
    this.add(event.detail, []);
  }

  private readonly chooseFolder = async () => {
    this.trouble = null;
    try {
      const files = await filesOfFolder();
      if (files !== null) this.add([], files);
    } catch (error) {
      this.trouble = `The folder can’t be read (${error instanceof Error ? error.message : String(error)}). Choose the frames themselves.`;
    }
  };

  private pickedFolder(event: Event): void {
    const input = event.target as HTMLInputElement;
    const files = Array.from(input.files ?? []);
    input.value = '';
    // "folder/inside/frame.jpg": those of folders inside are left out
    this.add(
      [],
      files.filter(({ webkitRelativePath }) => webkitRelativePath.split('/').length <= 2),
    );
  }

  /** Files chosen by themselves are tried whatever they are; of a folder, those that can be frames. */
  private add(files: readonly File[], ofFolder: readonly File[]): void {
    const { frames, others } = framesAmong(ofFolder);
    this.others = others;
    this.desk.add([...files, ...frames]);
  }

  private leaveOut(id: number): void {
    this.desk.remove(id);
    this.renderRoot.querySelector('evenfield-frame-picker')?.focus(); // the button goes with its frame
  }

  private async findSample(): Promise<void> {
    const name = this.take.frames[0]?.name ?? '';
    this.sample = null;
    const found = await sampleSubject(document.baseURI, name).catch(() => null); // no samples is no failure
    if (name === this.take.frames[0]?.name) this.sample = found;
  }

  private readonly addSample = async () => {
    const address = this.sample;
    if (address === null) return;
    this.sample = null; // once is enough
    const blob = await fetch(address).then((response) => response.blob());
    this.desk.add([new File([blob], address.slice(address.lastIndexOf('/') + 1), { type: blob.type })]);
  };

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
    void droppedFiles(event.dataTransfer).then(({ files, inFolders }) => this.add(files, inFolders));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct': EvenfieldCorrect;
  }
}
