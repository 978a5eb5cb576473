import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { filesOfFolder, offersFolders } from '../sources/choose-folder.ts';
import { sampleSubject } from '../sources/sample-list.ts';
import './evenfield-frame-picker.ts';
import { type } from './paper.ts';
import { samplesAddress } from './samples-address.ts';

/** Files chosen by themselves, and those of a folder. */
export interface ChosenFiles {
  readonly files: readonly File[];
  readonly inFolders: readonly File[];
}

/**
 * Chooses frames of the subject: some, a whole folder, or the sample's own.
 * @event evenfield-chosen - {ChosenFiles}
 * @event evenfield-trouble - {string} why a folder can't be read, in a sentence
 */
@customElement('evenfield-correct-choose')
export class EvenfieldCorrectChoose extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    type,
    css`
      .choose {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        margin: 0.75rem 0;
      }
    `,
  ];

  /** Address of the sample's frame with a subject, until it was tried. */
  @state() private sample: string | null = null;

  /** Name of the blank frame's file, which may be a sample's. */
  @property() blankName = '';

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('blankName')) void this.findSample(this.blankName);
  }

  override render() {
    return html`<div class="choose" @evenfield-picked=${this.picked}>
      <evenfield-frame-picker label="Choose frames to correct…"></evenfield-frame-picker>
      ${
        offersFolders()
          ? html`<button @click=${this.chooseFolder}>Choose a whole folder…</button>`
          : html`<label class="button">Choose a whole folder…<input class="unseen" type="file" webkitdirectory @change=${this.pickedFolder} /></label>`
      }
      ${this.sample === null ? nothing : html`<button @click=${this.chooseSample}>Try it on a sample frame</button>`}
      <span class="small quiet">or drop frames or a folder here: shot with this light, focus positions too</span>
    </div>`;
  }

  private picked(event: CustomEvent<File[]>): void {
    event.stopPropagation(); // elsewhere a picked frame is the next take
    this.tell({ files: event.detail, inFolders: [] });
  }

  private readonly chooseFolder = async () => {
    try {
      const inFolders = await filesOfFolder();
      if (inFolders !== null) this.tell({ files: [], inFolders });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      const detail = `The folder can’t be read (${why}). Choose the frames themselves.`;
      this.dispatchEvent(new CustomEvent('evenfield-trouble', { detail, bubbles: true, composed: true }));
    }
  };

  private pickedFolder(event: Event): void {
    const input = event.target as HTMLInputElement;
    const files = Array.from(input.files ?? []);
    input.value = '';
    // "folder/inside/frame.jpg": those of folders inside are left out
    const inFolders = files.filter(({ webkitRelativePath }) => webkitRelativePath.split('/').length <= 2);
    this.tell({ files: [], inFolders });
  }

  private async findSample(blankName: string): Promise<void> {
    this.sample = null;
    const address = samplesAddress(this);
    const found = address && (await sampleSubject(address, blankName).catch(() => null)); // no samples is no failure
    if (blankName === this.blankName) this.sample = found;
  }

  private readonly chooseSample = async () => {
    const address = this.sample;
    if (address === null) return;
    this.sample = null; // once is enough
    this.renderRoot.querySelector('evenfield-frame-picker')?.focus(); // the button goes
    const blob = await fetch(address)
      .then((response) => (response.ok ? response.blob() : null))
      .catch(() => null); // offline, or gone: there is nothing to choose
    if (blob === null) return;
    const file = new File([blob], address.slice(address.lastIndexOf('/') + 1), { type: blob.type });
    this.tell({ files: [file], inFolders: [] });
  };

  private tell(detail: ChosenFiles): void {
    this.dispatchEvent(new CustomEvent('evenfield-chosen', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-choose': EvenfieldCorrectChoose;
  }
}
