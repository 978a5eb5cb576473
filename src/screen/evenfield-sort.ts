import { html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { EngineClient } from '../../workers/engine-client.ts';
import type { FrameKind } from '../engine/sorting/frame-kind.ts';
import { filesOfFolder, framesAmong, offersFolders } from '../sources/choose-folder.ts';
import { oneFileAFrame } from '../sources/one-file-a-frame.ts';
import './evenfield-small-picture.ts';
import { sortStyles } from './evenfield-sort.styles.ts';
import { hintStyles } from './hint.styles.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { kindOf, SortDesk, type SortedFrame } from './sort-desk.ts';
import { wordChoice } from './word-choice.ts';
import { KIND_WORDS, lookedWords, setWords, sureWords } from './words/sort-words.ts';

const KINDS = Object.keys(KIND_WORDS) as FrameKind[];

/** A blank and the frames to be corrected by it. */
export interface SortedSet {
  readonly blank: File;
  readonly subjects: readonly File[];
}

/**
 * A whole shoot told apart, so that the frames that matter are found without scrolling.
 * @event evenfield-sorted - {SortedSet} what is to be read and corrected
 */
@customElement('evenfield-sort')
export class EvenfieldSort extends LitElement {
  static override styles = [type, sentenceStyles, hintStyles, sortStyles];

  private readonly desk = new SortDesk(() => new EngineClient());
  @state() private trouble: string | null = null;

  private readonly changed = () => this.requestUpdate();

  override connectedCallback(): void {
    super.connectedCallback();
    this.desk.addEventListener('change', this.changed);
  }

  override disconnectedCallback(): void {
    this.desk.removeEventListener('change', this.changed);
    this.desk.stop();
    super.disconnectedCallback();
  }

  override willUpdate(): void {
    this.toggleAttribute('wide', this.desk.frames.length > 0 || this.trouble !== null);
  }

  override render() {
    const { frames, looked } = this.desk;
    if (frames.length === 0)
      return html`<p class="line">
          ${
            offersFolders()
              ? html`<button @click=${this.choose}>Sort a shoot…</button>`
              : html`<label class="button">Sort a shoot…<input class="unseen" type="file" webkitdirectory @change=${this.picked} /></label>`
          }
          <span class="quiet hint">A folder’s frames are told apart: blank (the empty background), subject, marker (a hand or card before the lens), light off, exposed badly.</span>
        </p>
        ${this.trouble === null ? nothing : html`<p role="alert">${this.trouble}</p>`}`;
    return html`<section aria-label="The shoot, sorted">
      <h2>The shoot, sorted</h2>
      <p class="line">
        ${looked === null ? nothing : html`<span>${lookedWords(looked, frames.length)}</span>`}
        <span aria-live="polite">${looked === null ? this.proposal() : ''}</span>
        ${this.hasSet ? html`<button @click=${this.goOn}>Read the blank and choose these</button>` : nothing}
        <button @click=${this.putAway}>${looked === null ? 'Put them away' : 'Stop'}</button>
      </p>
      ${looked === null ? this.list() : html`<progress aria-label="Looking" max=${frames.length} value=${looked}></progress>`}
    </section>`;
  }

  private get hasSet(): boolean {
    return this.desk.looked === null && this.desk.set.blank !== null;
  }

  private proposal(): string {
    const { frames, set, trouble } = this.desk;
    if (trouble !== null) return trouble;
    const names = frames.map(({ file }) => file.name);
    const hasMarker = frames.slice(0, set.subjects[0] ?? 0).some((frame) => kindOf(frame) === 'marker');
    return setWords(set, names, hasMarker);
  }

  private list() {
    const { frames, set } = this.desk;
    const chosen = new Set(set.subjects);
    return html`<p class="small quiet">Where one is told wrongly, go to its word with Tab and press the first letter of what it is.</p>
      <div class="frames"><table>
        <thead><tr><th scope="col">Frame</th><th scope="col">Is</th><th scope="col">How sure</th></tr></thead>
        <tbody>
          ${frames.map(
            (frame, i) => html`<tr class=${i === set.blank || chosen.has(i) ? 'chosen' : ''}>
              <th scope="row"><div>
                <evenfield-small-picture .picture=${frame.look?.picture ?? null}></evenfield-small-picture>
                <span class="name">${frame.file.name}</span>
              </div></th>
              <td @keydown=${(event: KeyboardEvent) => this.sayByKey(event, i)}>${this.kind(frame, i)}</td>
              <td class="small quiet">${i === set.blank ? 'the blank for them; ' : chosen.has(i) ? 'to be corrected; ' : ''}${frame.refusal ?? sureWords(frame.told, frame.said !== null)}</td>
            </tr>`,
          )}
        </tbody>
      </table></div>`;
  }

  private kind(frame: SortedFrame, i: number) {
    const kind = kindOf(frame);
    if (kind === null) return 'not known';
    return wordChoice(`What ${frame.file.name} is`, kind, KIND_WORDS, (said) => this.desk.say(i, said));
  }

  /** At once, and not as the next letter of a word that is typed, as the browser would take a second key. */
  private sayByKey(event: KeyboardEvent, i: number): void {
    if (event.ctrlKey || event.metaKey || event.altKey || !(event.target instanceof HTMLSelectElement))
      return;
    const said = KINDS.find((kind) => KIND_WORDS[kind].startsWith(event.key.toLowerCase()));
    if (event.key.length !== 1 || said === undefined) return;
    event.preventDefault();
    event.target.value = said;
    this.desk.say(i, said);
  }

  private readonly choose = async () => {
    try {
      const files = await filesOfFolder();
      if (files !== null) this.sort(files);
    } catch (error) {
      this.trouble = `The folder can’t be read (${error instanceof Error ? error.message : String(error)}). Choose another one.`;
    }
  };

  private readonly picked = (event: Event) => {
    const input = event.target as HTMLInputElement;
    this.sort(Array.from(input.files ?? []));
    input.value = '';
  };

  private sort(files: readonly File[]): void {
    const frames = oneFileAFrame(framesAmong(files).frames);
    this.trouble =
      frames.length > 0 ? null : 'There is no picture in that folder. Choose the one that the frames lie in.';
    void this.desk.sort(frames);
    void this.toFirstButton();
  }

  private readonly putAway = () => {
    this.desk.clear();
    void this.toFirstButton();
  };

  /** The button that was pressed goes with what it was pressed for. */
  private async toFirstButton(): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector('button')?.focus();
  }

  private readonly goOn = () => {
    const { frames, set } = this.desk;
    const detail: SortedSet = {
      blank: frames[set.blank!]!.file,
      subjects: set.subjects.map((i) => frames[i]!.file),
    };
    this.dispatchEvent(new CustomEvent('evenfield-sorted', { detail, bubbles: true, composed: true }));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-sort': EvenfieldSort;
  }
}
