import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ReadFailure } from '../sources/read-failure.ts';
import type { HeldTake } from '../takes/take.ts';
import type { BenchSession } from './bench-session.ts';
import { type } from './paper.ts';
import './evenfield-first-look.ts';
import {
  fetchingWords,
  LONG_WAIT_MS,
  LONG_WAIT_WORDS,
  progressWords,
  wholeFraction,
} from './words/progress-words.ts';

/**
 * A reading under way, with its cancel button; what went wrong or was mistyped; and the verdict in short as it
 * changes: all in words that are announced.
 * @event evenfield-cancel - when the reading is to be stopped
 */
@customElement('evenfield-status')
export class EvenfieldStatus extends LitElement {
  static override styles = [
    type,
    css`
      .reading {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.75rem 1rem;
        padding: 0.75rem 0;
      }
      .reading span {
        overflow-wrap: anywhere;
      }
      progress {
        flex: 1 1 10rem;
        max-width: 24rem;
        height: 0.5rem;
        accent-color: var(--ink);
      }
      .long {
        flex-basis: 100%;
        margin: 0;
      }
      .failure {
        margin: 0.75rem 0;
        padding: 0.25rem 0 0.25rem 1rem;
        border-inline-start: 4px solid var(--ink);
        max-width: 46rem;
      }
      :host {
        scroll-margin: 1rem;
      }
      .slip {
        overflow-wrap: anywhere;
        margin: 0;
      }
      .failure p {
        margin: 0;
        overflow-wrap: anywhere;
      }
      .failure button {
        margin-block: 0.5rem;
      }
      .message::first-letter {
        text-transform: uppercase;
      }
    `,
  ];

  @property({ attribute: false }) progress: BenchSession['progress'] = null;
  @property({ attribute: false }) failure: ReadFailure | null = null;
  /** The take that is being fetched to be shown. */
  @property({ attribute: false }) fetching: HeldTake | null = null;
  /** What was typed and not understood, and what was kept instead. */
  @property({ attribute: false }) slip: string | null = null;
  /** The verdict in short, for those who hear the page. */
  @property({ attribute: false }) says: string | null = null;
  @property({ type: Boolean }) hasTakes = false;
  /** Whether nothing was heard of the reading for longer than is usual. */
  @state() private isLong = false;
  private waiting: ReturnType<typeof setTimeout> | undefined;

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('progress')) return;
    this.isLong = false;
    clearTimeout(this.waiting);
    if (this.progress === null) return;
    this.waiting = setTimeout(() => {
      this.isLong = true;
    }, LONG_WAIT_MS);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.waiting);
  }

  override render() {
    const look = this.progress?.look ?? null;
    return html`<div aria-live="polite">${this.readingUnderWay()}</div>
      ${look === null ? nothing : html`<evenfield-first-look ?small=${this.hasTakes} .look=${look}></evenfield-first-look>`}
      <p class="unseen" role="status">${this.progress === null ? this.says : nothing}</p>
      <p class="slip" role="status">${this.slip ?? (this.fetching && fetchingWords(this.fetching)) ?? nothing}</p>
      <div role="alert" aria-live="assertive">${this.whatWentWrong()}</div>`;
  }

  override updated(changed: PropertyValues<this>): void {
    // whoever dropped a file far down the page is to see what became of it
    if (changed.has('failure') && this.failure !== null) this.scrollIntoView({ block: 'nearest' });
  }

  private readingUnderWay() {
    if (this.progress === null) return nothing;
    const { phase, fraction, fileName } = this.progress;
    return html`<div class="reading">
      <span>${progressWords(phase, fileName)}</span>
      <progress aria-label="Reading" max="1" value=${wholeFraction(phase, fraction)}></progress>
      <button @click=${this.cancel}>Cancel</button>
      ${this.isLong ? html`<p class="long">${LONG_WAIT_WORDS}</p>` : nothing}
    </div>`;
  }

  private whatWentWrong() {
    if (this.failure === null) return nothing;
    const { fileName, message, again } = this.failure;
    return html`<div class="failure">
      ${fileName === null || message.includes(fileName) ? nothing : html`<p class="quiet">${fileName}</p>`}
      <p class="large message">${message}</p>
      ${this.hasTakes ? html`<p class="quiet">The earlier takes are as they were.</p>` : nothing}
      ${again === null ? nothing : html`<button @click=${again}>Try again</button>`}
    </div>`;
  }

  private cancel(): void {
    this.dispatchEvent(new CustomEvent('evenfield-cancel', { bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-status': EvenfieldStatus;
  }
}
