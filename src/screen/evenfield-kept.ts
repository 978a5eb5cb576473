import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { tellsPagesApart } from '../sources/page-claim.ts';
import { isKeptForGood } from '../sources/storage-room.ts';
import type { ShelvedShoot } from '../takes/take-shelf.ts';
import type { KeptShoots } from './kept-shoots.ts';
import type { OpenedShoot } from './opened-shoot.ts';
import { type } from './paper.ts';
import {
  KEEPING_TROUBLE_WORDS,
  REFUSED_WORDS,
  roomWords,
  shootWords,
  unsureKeepingWords,
} from './words/kept-words.ts';

/** As many of the earlier shoots are listed before the rest is asked for. */
const LISTED = 3;

/**
 * What is kept on this machine of earlier shoots, to go on with; and what keeps takes from being kept.
 * @event evenfield-go-on - {OpenedShoot} the shoot chosen
 */
@customElement('evenfield-kept')
export class EvenfieldKept extends LitElement {
  static override styles = [
    type,
    css`
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li,
      p {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        margin: 0 0 0.5rem;
      }
    `,
  ];

  @property({ attribute: false }) kept!: KeptShoots;
  /** Whether nothing was read yet, so that an earlier shoot can be gone on with. */
  @property({ type: Boolean }) isStart = false;
  @property({ state: true }) private listsAll = false;
  @property({ state: true }) private isForGood = true;

  private readonly changed = () => this.requestUpdate();

  override willUpdate(before: PropertyValues<this>): void {
    if (!before.has('kept')) return;
    before.get('kept')?.removeEventListener('change', this.changed);
    this.kept.addEventListener('change', this.changed);
    void this.kept.list();
    void isKeptForGood().then((isForGood) => {
      this.isForGood = isForGood;
    });
  }

  override render() {
    return html`${this.room()}
      ${this.isStart || this.kept.isRoomWanted ? this.earlier() : nothing}`;
  }

  private room() {
    const { trouble, room } = this.kept;
    if (trouble !== null) return html`<p role="alert">${KEEPING_TROUBLE_WORDS[trouble]}</p>`;
    if (room === null) return nothing;
    return room === 0
      ? html`<p role="alert">${roomWords(room)}</p>`
      : html`<p class="small quiet" role="status">${roomWords(room)}</p>`;
  }

  private earlier() {
    const { shoots, deleted, refused } = this.kept;
    const listed = this.listsAll ? shoots : shoots.slice(0, LISTED);
    return html`${
      shoots.length === 0
        ? nothing
        : html`<h2>Kept in this browser</h2>
          <ul>${listed.map((shoot) => this.row(shoot))}</ul>
          <p class="small quiet">${unsureKeepingWords(this.isForGood, tellsPagesApart())}</p>`
    }
    ${
      listed.length < shoots.length
        ? html`<p><button @click=${() => {
            this.listsAll = true;
          }}>Show all ${shoots.length}</button></p>`
        : nothing
    }
    ${refused === null ? nothing : html`<p role="status">${REFUSED_WORDS[refused]}</p>`}
    ${
      deleted === null
        ? nothing
        : html`<p role="status">
            <span>Deleted: ${shootWords(deleted)}.</span>
            <button @click=${() => this.kept.takeBack()}>Take it back</button>
          </p>`
    }`;
  }

  private row(shoot: ShelvedShoot) {
    const words = shootWords(shoot);
    const remove = this.kept.isRoomWanted ? 'Delete for good' : 'Delete';
    return html`<li>
      <span>${words}</span>
      ${this.isStart ? html`<button aria-label="Go on with ${words}" @click=${() => this.goOn(shoot)}>Go on</button>` : nothing}
      <button aria-label="${remove} ${words}" @click=${() => this.kept.delete(shoot)}>${remove}</button>
    </li>`;
  }

  private async goOn(shoot: ShelvedShoot): Promise<void> {
    const opened = await this.kept.open(shoot);
    if (opened === null) return;
    this.dispatchEvent(
      new CustomEvent<OpenedShoot>('evenfield-go-on', {
        detail: opened,
        bubbles: true,
        composed: true,
      }),
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-kept': EvenfieldKept;
  }
}
