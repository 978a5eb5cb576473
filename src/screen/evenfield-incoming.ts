import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { benchesOnPage } from './benches-on-page.ts';
import './evenfield-follow.ts';
import './evenfield-frame-picker.ts';
import type { Aim } from '../engine/aim.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import './evenfield-deleted-take.ts';
import './evenfield-kept.ts';
import './evenfield-live.ts';
import './evenfield-start.ts';
import type { DeletedTake } from '../takes/deleted-take.ts';
import type { FollowedShoot } from './followed-shoot.ts';
import type { KeptShoots } from './kept-shoots.ts';
import './evenfield-sort.ts';
import { type } from './paper.ts';
import { SEVERAL_FRAMES } from './words/take-words.ts';

/** Where frames come from: chosen or dropped, a folder that is followed, a shoot that was kept. */
@customElement('evenfield-incoming')
export class EvenfieldIncoming extends LitElement {
  static override styles = [
    type,
    css`
      .next {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        margin-bottom: 0.75rem;
      }
      /* Once there is a verdict the other ways for frames to come in stand in one row, so that it is seen at once. */
      .brief {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem 1rem;
      }
      .brief > [wide] {
        flex: 1 0 100%;
        min-width: 0;
      }
      evenfield-follow,
      evenfield-live,
      evenfield-sort,
      evenfield-kept {
        margin: 0.75rem 0;
      }
      .brief > * {
        margin: 0;
      }
    `,
  ];

  @property({ attribute: false }) shoot!: FollowedShoot;
  @property({ attribute: false }) kept!: KeptShoots;
  @property({ type: Boolean }) hasTakes = false;
  /** What is seen through a camera is judged by it. */
  @property({ attribute: false }) tolerance!: Tolerance;
  @property({ attribute: false }) aim!: Aim;
  /** Whether a move was answered, so that the next frame belongs to the same set-up. */
  @property({ type: Boolean }) hasAnswers = false;

  /** The take that was deleted last: where it was the only one, there is no table of takes to tell it in. */
  @property({ attribute: false }) deleted: DeletedTake | null = null;

  override render() {
    return html`${this.hasTakes ? this.nextFrame() : this.first()}
      <div class=${this.hasTakes ? 'brief' : ''}>
        <evenfield-follow .shoot=${this.shoot} ?brief=${this.hasTakes}></evenfield-follow>
        <evenfield-live .tolerance=${this.tolerance} .aim=${this.aim} ?brief=${this.hasTakes}></evenfield-live>
        <evenfield-sort ?brief=${this.hasTakes}></evenfield-sort>
      </div>
      <evenfield-kept .kept=${this.kept} .isStart=${!this.hasTakes}></evenfield-kept>`;
  }

  private first() {
    return html`<evenfield-start></evenfield-start>
      <evenfield-deleted-take .deleted=${this.deleted}></evenfield-deleted-take>`;
  }

  private nextFrame() {
    return html`<div class="next">
      <evenfield-frame-picker label="Read another frame…" .takesJobs=${true}></evenfield-frame-picker>
      <span class="quiet">or drop it anywhere on ${benchesOnPage.dropPlace}: ${this.hasAnswers ? 'the next take of this set-up' : 'a new set-up'}. ${SEVERAL_FRAMES}</span>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-incoming': EvenfieldIncoming;
  }
}
