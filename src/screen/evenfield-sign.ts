import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { AimedReading } from '../engine/aims/aimed-reading.ts';
import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { type } from './paper.ts';
import { signWords } from './words/sign-words.ts';

/** The verdict over the whole screen, to be read from where the lights are moved; each new take changes it. */
@customElement('evenfield-sign')
export class EvenfieldSign extends LitElement {
  static override styles = [
    type,
    css`
      dialog {
        width: 100vw;
        max-width: none;
        height: 100dvh;
        max-height: none;
        margin: 0;
        padding: 2vmin 4vmin;
        border: 0;
        background: var(--ground);
        color: var(--ink);
      }
      dialog[open] {
        display: flex;
        flex-direction: column;
        justify-content: space-between;
      }
      p {
        margin: 0;
        overflow-wrap: anywhere;
      }
      /* As large as the longest word lets it be, and as the lines it takes fit above each other. */
      .largest {
        font-size: min(92vw / (var(--longest) * 0.74), 52dvh / (var(--words) * 1.05));
        font-weight: 700;
        line-height: 1.05;
      }
      .figures {
        font-size: min(13vw, 14dvh);
        line-height: 1.1;
      }
      .also {
        font-size: min(5vw, 8dvh);
        line-height: 1.15;
      }
      .foot {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 0.5rem 1rem;
      }
    `,
  ];

  @query('dialog') private dialog!: HTMLDialogElement;

  @state() private isOpen = false;

  @property({ attribute: false }) reading!: Pick<Reading, 'verdict' | 'falloff'>;
  @property({ attribute: false }) tolerance!: Tolerance;
  /** What the light is worth for an aim other than an even background. */
  @property({ attribute: false }) aimed: AimedReading | null = null;
  /** Which take it is, in words. */
  @property() name = '';

  override render() {
    return html`<button @click=${this.open}>Large sign</button>
      <dialog aria-labelledby="verdict" aria-describedby="figures" @close=${() => {
        this.isOpen = false;
      }}>${this.isOpen ? this.sign() : nothing}</dialog>`;
  }

  private sign() {
    const { verdict, found, limit, also } = signWords(this.reading, this.tolerance, this.aimed);
    return html`<p class="largest" id="verdict">${verdict}</p>
      <div>
        <p class="figures" id="figures">${found}<br />${limit}</p>
        <p class="also">${also ?? nothing}</p>
      </div>
      <div class="foot">
        <span>${this.name}</span>
        <button autofocus @click=${() => this.dialog.close()}>Back to the page</button>
      </div>`;
  }

  private readonly open = async () => {
    this.isOpen = true;
    await this.updateComplete;
    this.dialog.showModal();
  };

  override willUpdate(): void {
    const words = signWords(this.reading, this.tolerance, this.aimed).verdict.split(' ');
    this.style.setProperty('--words', String(words.length));
    this.style.setProperty('--longest', String(Math.max(...words.map(({ length }) => length))));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-sign': EvenfieldSign;
  }
}
