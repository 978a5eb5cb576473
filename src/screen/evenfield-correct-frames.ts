import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { partOfFile } from '../../workers/correct-batch.ts';
import { type } from './paper.ts';
import type { SubjectFrame } from './subject-frame.ts';
import { flagWords, outcomeWords, phaseWords } from './words/correct-frame-words.ts';
import type { LengthUnit } from './words/length-words.ts';

/**
 * The frames that are to be corrected, each with what is said of it, how far it is and what became of it.
 * @event evenfield-show-frame - {number} the id of the one to be looked at
 * @event evenfield-drop-frame - {number} the id of the one to be done without
 */
@customElement('evenfield-correct-frames')
export class EvenfieldCorrectFrames extends LitElement {
  static override styles = [
    type,
    css`
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        align-items: flex-start;
        gap: 0 1rem;
        padding: 0.25rem 0;
        border-bottom: 1px solid var(--faint-rule);
      }
      .name {
        flex: 1 1 12rem;
        border: 0;
        padding-inline: 0;
        overflow-wrap: anywhere;
      }
      .name:hover {
        background: none;
        color: inherit;
        text-decoration: underline;
      }
      .said {
        flex: 0 0 100%;
        margin: 0 0 0.5rem;
        overflow-wrap: anywhere;
      }
      .said + .said {
        margin-top: -0.25rem;
      }
      progress {
        width: 10rem;
        max-width: 60%;
        height: 0.5rem;
        margin-inline-end: 0.75rem;
        accent-color: var(--ink);
      }
    `,
  ];

  @property({ attribute: false }) frames: readonly SubjectFrame[] = [];
  @property({ attribute: false }) shownId: number | null = null;
  /** Whether they are being corrected: then none can be done without. */
  @property({ type: Boolean }) isRunning = false;
  @property() unit: LengthUnit = 'cm';

  override render() {
    return html`<ol aria-label="Frames to correct">
      ${this.frames.map((frame) => this.line(frame))}
    </ol>`;
  }

  private line(frame: SubjectFrame) {
    const { id, file, refusal, progress, outcome } = frame;
    const isShown = id === this.shownId;
    return html`<li>
      <button class="name" aria-current=${isShown ? 'true' : nothing} @click=${() => this.tell('evenfield-show-frame', id)}>${file.name}${isShown ? html`<span class="quiet"> · shown</span>` : nothing}</button>
      ${
        this.isRunning
          ? nothing
          : html`<button aria-label=${`Leave out ${file.name}`} @click=${() => this.tell('evenfield-drop-frame', id)}>Leave out</button>`
      }
      ${
        progress === null
          ? nothing
          : html`<p class="said small"><progress aria-label=${`Correcting ${file.name}`} max="1" value=${partOfFile(progress.phase, progress.fraction)}></progress>${phaseWords(progress.phase)}</p>`
      }
      ${outcome === null ? nothing : html`<p class="said small">${outcomeWords(outcome)}</p>`}
      ${refusal === null ? nothing : html`<p class="said small">Can’t be corrected: ${refusal}</p>`}
      ${saidOf(frame).map((flag) => html`<p class="said small quiet">${flagWords(flag, this.unit)}</p>`)}
    </li>`;
  }

  private tell(name: string, id: number): void {
    this.dispatchEvent(new CustomEvent(name, { detail: id, bubbles: true, composed: true }));
  }
}

/** What the corrected file itself was found to be goes before what its picture in small was. */
function saidOf({ flags, outcome }: SubjectFrame): readonly string[] {
  if (outcome?.state === 'refused') return [];
  return outcome?.state === 'done' ? [...outcome.flags, ...(outcome.notes ?? [])] : (flags ?? []);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-frames': EvenfieldCorrectFrames;
  }
}
