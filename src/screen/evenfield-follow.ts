import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { folderToFollow, offersFolders } from '../sources/choose-folder.ts';
import type { FollowedShoot } from './followed-shoot.ts';
import { hintStyles } from './hint.styles.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import {
  followedWords,
  NEXT_FRAME_WORDS,
  NOT_FOLLOWED_WORDS,
  TOLD_WORDS,
  TROUBLE_WORDS,
} from './words/follow-words.ts';

/** The folder that the camera writes into: chosen, followed, and what came of it, in one sentence. */
@customElement('evenfield-follow')
export class EvenfieldFollow extends LitElement {
  static override styles = [
    type,
    sentenceStyles,
    hintStyles,
    css`
      .name {
        overflow-wrap: anywhere;
      }
      .line {
        line-height: 1.5;
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
      }
    `,
  ];

  @property({ attribute: false }) shoot!: FollowedShoot;

  private readonly changed = () => this.requestUpdate();

  override willUpdate(before: PropertyValues<this>): void {
    this.toggleAttribute('wide', this.shoot.folderName !== null || this.shoot.trouble !== null);
    if (!before.has('shoot')) return;
    before.get('shoot')?.removeEventListener('change', this.changed);
    this.shoot.addEventListener('change', this.changed);
    void this.shoot.recall();
  }

  override render() {
    if (!offersFolders())
      return html`<p class="line"><span class="quiet hint">${NOT_FOLLOWED_WORDS}</span></p>`;
    const { shoot } = this;
    const { folderName, trouble, nextIs } = shoot;
    if (folderName === null)
      return html`<p class="line">
        <button @click=${this.choose}>Follow a folder…</button>
        ${
          shoot.remembered === null
            ? nothing
            : html`<button @click=${() => shoot.followAgain()}>Follow “${shoot.remembered.name}” again</button>`
        }
        <span class="quiet hint">Each frame that the camera writes into it is read by itself.</span>
      </p>`;
    return html`<p class="line">
        <span>Following <span class="name">“${folderName}”</span>: <span role="status">${followedWords(shoot)}.</span>
          The next frame is
          ${wordChoice('What the next frame counts as', nextIs, NEXT_FRAME_WORDS, (chosen) => shoot.countNextAs(chosen))};
          its verdict is
          ${wordChoice('How each verdict is told', shoot.isHeard ? 'heard' : 'seen', TOLD_WORDS, (chosen) => shoot.hear(chosen === 'heard'))}.</span>
        <button @click=${() => shoot.stop()}>Stop following</button>
      </p>
      ${
        trouble === null
          ? nothing
          : html`<p class="line" role="alert">
              <span>${TROUBLE_WORDS[trouble]}</span>
              ${
                trouble === 'not-allowed'
                  ? html`<button @click=${() => shoot.followAgain()}>Ask again</button>`
                  : nothing
              }
            </p>`
      }`;
  }

  private readonly choose = async () => {
    const folder = await folderToFollow();
    if (folder) this.shoot.follow(folder);
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-follow': EvenfieldFollow;
  }
}
