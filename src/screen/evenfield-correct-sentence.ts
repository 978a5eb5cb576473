import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { type CorrectionWishes, FIRST_WISHES } from './correction-wishes.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import {
  belowWhiteSlipWords,
  CAST_WORDS,
  FORMAT_WORDS,
  INTO_WORDS,
  LEVEL_WORDS,
  NOTES_WORDS,
  notesHint,
  parseBelowWhite,
  TREATMENT_WORDS,
  treatmentHint,
} from './words/correct-words.ts';
import { decimals } from './words/figures.ts';

/**
 * How frames are to be corrected, as one sentence whose words are the controls.
 * @event evenfield-wish - {Partial<CorrectionWishes>} a word that was changed
 * @event evenfield-slip - {string | null} what was typed and not understood, in a sentence; `null` once it is
 */
@customElement('evenfield-correct-sentence')
export class EvenfieldCorrectSentence extends LitElement {
  static override styles = [type, sentenceStyles];

  @property({ attribute: false }) wishes: CorrectionWishes = FIRST_WISHES;
  /** Whether frames can be written into a folder from here. */
  @property({ type: Boolean }) offersFolders = false;

  override render() {
    const { treat, level, takesCastOut, writtenAs, notes, into } = this.wishes;
    return html`<p>
        Take the unevenness out of
        ${wordChoice('What the unevenness is taken out of', treat, TREATMENT_WORDS, (chosen) => this.wish({ treat: chosen }))},
        bring the background to
        ${wordChoice('Level of the background', level, LEVEL_WORDS, (chosen) => this.wish({ level: chosen }))}${level === 'below-white' ? this.belowWhite() : nothing},
        ${wordChoice('The background’s cast', takesCastOut ? 'out' : 'left', CAST_WORDS, (chosen) => this.wish({ takesCastOut: chosen === 'out' }))},
        and write each frame as
        ${wordChoice('Format of the corrected frames', writtenAs, FORMAT_WORDS, (chosen) => this.wish({ writtenAs: chosen }))}
        with
        ${wordChoice('What the corrected files note', notes, NOTES_WORDS, (chosen) => this.wish({ notes: chosen }))}
        into
        ${
          this.offersFolders
            ? wordChoice('Where corrected frames are written', into, INTO_WORDS, (chosen) =>
                this.wish({ into: chosen }),
              )
            : INTO_WORDS.downloads
        }.
      </p>
      <p class="small quiet source">
        ${treatmentHint(treat)} ${notesHint(notes)}
      </p>`;
  }

  private belowWhite() {
    const { belowWhiteEv } = this.wishes;
    const read = (event: Event) => {
      const { value } = event.target as HTMLInputElement;
      const ev = parseBelowWhite(value);
      this.tell('evenfield-slip', ev === null ? belowWhiteSlipWords(value.trim(), belowWhiteEv) : null);
      if (ev !== null) this.wish({ belowWhiteEv: ev });
      this.requestUpdate(); // what was typed, or a slip, gives way to what is kept
    };
    return html`, <input aria-label="Stops below white" inputmode="decimal" autocomplete="off" .value=${live(decimals(belowWhiteEv, 1))} @change=${read} />
      ${belowWhiteEv > 1 ? 'stops' : 'stop'} below white`;
  }

  private wish(part: Partial<CorrectionWishes>): void {
    this.tell('evenfield-wish', part);
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-sentence': EvenfieldCorrectSentence;
  }
}
