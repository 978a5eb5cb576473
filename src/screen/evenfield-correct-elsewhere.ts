import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { type } from './paper.ts';

/** The correction in a form that others can apply. */
export type TakenAway = 'profile' | 'gains' | 'ramp';

const BUTTONS: Record<TakenAway, string> = {
  profile: 'Save the correction profile',
  gains: 'Save the gain picture',
  ramp: 'Save the straight ramp',
};

/**
 * What of the correction can be taken elsewhere.
 * @event evenfield-take-away - {TakenAway} which is wanted
 */
@customElement('evenfield-correct-elsewhere')
export class EvenfieldCorrectElsewhere extends LitElement {
  static override styles = [
    type,
    css`
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem;
        margin: 1rem 0 0.5rem;
      }
      p {
        max-width: 110ch;
      }
    `,
  ];

  override render() {
    return html`<div class="buttons">
        ${(Object.keys(BUTTONS) as TakenAway[]).map(
          (what) => html`<button @click=${() => this.want(what)}>${BUTTONS[what]}</button>`,
        )}
      </div>
      <p class="small quiet">
        The gains for the whole frame, to be applied elsewhere: in a JSON file; as a 16-bit TIFF, for any editor that
        multiplies in linear light (the file itself says how); as figures of a straight ramp, to be typed in. A level of
        your own, and what tells the background from the subject, are not in them.
      </p>`;
  }

  private want(what: TakenAway): void {
    this.dispatchEvent(
      new CustomEvent('evenfield-take-away', { detail: what, bubbles: true, composed: true }),
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-elsewhere': EvenfieldCorrectElsewhere;
  }
}
