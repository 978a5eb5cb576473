import { css, html, LitElement } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { ACCEPTED_FILES } from '../sources/picture-files.ts';
import { benchAround } from './bench-around.ts';
import { benchesOnPage } from './benches-on-page.ts';
import './evenfield-frame-picker.ts';
import { type } from './paper.ts';

/**
 * The way to the next take: one large button and one key for the same set-up, a small button for a new one.
 * Enter works from the answers around it and from the page itself, never from a field or another control.
 * @event evenfield-shoot-again - {File[]} the next frame of the same set-up
 * @event evenfield-new-setup - {File[]} the first frame of a new one
 */
@customElement('evenfield-shoot-again')
export class EvenfieldShootAgain extends LitElement {
  static override styles = [
    type,
    css`
      .ways {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.75rem 1rem;
        margin-bottom: 0.5rem;
      }
      .again {
        min-height: 4rem;
        padding: 0.75rem 2rem;
        border-width: 2px;
        font-size: var(--verdict-size);
        line-height: 1.2;
      }
      kbd {
        padding: 0.125rem 0.5rem;
        border: 1px solid var(--rule);
        font: inherit;
      }
    `,
  ];

  @query('#frames') private frames!: HTMLInputElement;

  /** Whether there is anything to answer, and whether any of it was. */
  @property({ type: Boolean }) hasMoves = false;
  @property({ type: Boolean }) hasAnswers = false;

  /** Whether the next frame is read by itself, since nobody tells what was moved before it. */
  @property({ type: Boolean }) isByItself = false;

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('keydown', this.press);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('keydown', this.press);
    super.disconnectedCallback();
  }

  override render() {
    return html`<div class="ways">
        <button class="again" aria-keyshortcuts="Enter" @click=${this.open}>Shoot again</button>
        <span>or press <kbd>Enter</kbd></span>
        <input id="frames" type="file" multiple hidden accept=${ACCEPTED_FILES} @change=${this.pick} />
      </div>
      <p class="quiet">${this.whatCounts()}</p>
      <evenfield-frame-picker
        label="New set-up…"
        @evenfield-picked=${(event: CustomEvent<File[]>) => {
          event.stopPropagation(); // a picked frame may else be the next take
          this.tell('evenfield-new-setup', event.detail);
        }}
      ></evenfield-frame-picker>`;
  }

  private whatCounts(): string {
    if (this.isByItself) return 'The next frame is read by itself, as that of a new set-up.';
    if (this.hasAnswers)
      return `The next frame, chosen here or dropped on ${benchesOnPage.dropPlace}, is the next take of this set-up. A move without an answer counts as not done.`;
    if (this.hasMoves)
      return `Answer the moves first. While none is answered, a frame dropped on ${benchesOnPage.dropPlace} begins a new set-up.`;
    return `Chosen here, a frame is the next take of this set-up; dropped on ${benchesOnPage.dropPlace}, it begins a new one.`;
  }

  /** Lets the next frame be chosen. */
  readonly open = () => this.frames.click();

  private readonly press = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' || event.repeat || event.defaultPrevented) return;
    if (event.ctrlKey || event.altKey || event.metaKey || event.shiftKey || event.isComposing) return;
    const path = event.composedPath();
    const from = path[0];
    const around = (this.getRootNode() as ShadowRoot).host;
    const isAnswer = from instanceof HTMLInputElement && from.type === 'radio' && path.includes(around);
    const isOfPage = from === document.body || from === document.documentElement;
    if (!isAnswer && !(isOfPage && benchesOnPage.isMeant(benchAround(this)))) return;
    event.preventDefault();
    this.open();
  };

  private pick(): void {
    const files = Array.from(this.frames.files ?? []);
    this.frames.value = ''; // so that the same file can be chosen again
    if (files.length > 0) this.tell(this.isByItself ? 'evenfield-new-setup' : 'evenfield-shoot-again', files);
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-shoot-again': EvenfieldShootAgain;
  }
}
