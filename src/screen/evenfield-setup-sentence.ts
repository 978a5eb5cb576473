import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type Aim, EVEN } from '../engine/aim.ts';
import { type Setup, UNKNOWN_SETUP } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../engine/tolerances.ts';
import './evenfield-aim.ts';
import './evenfield-own-tolerance.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import { type LengthUnit, lengthWords } from './words/length-words.ts';
import { parseLength, slipWords } from './words/parse-length.ts';
import {
  ARRANGEMENT_WORDS,
  FROM_WORDS,
  LIGHT_WORDS,
  lightNames,
  ROOM_WORDS,
  reachWords,
  withArrangement,
  withLightDistance,
} from './words/setup-words.ts';
import { isOwnTolerance, ownTolerance } from './words/tolerance-words.ts';

const OWN_LIMIT = 'a limit of my own';

/**
 * The set-up as one sentence whose words are the controls; nothing in it has to be known.
 * @event evenfield-setup - {Setup} when a word of the set-up was changed
 * @event evenfield-tolerance - {Tolerance} when another yardstick was chosen
 * @event evenfield-aim - {Aim} when a word of what the background is to be was changed
 * @event evenfield-slip - {string} what was typed and not understood, in a sentence
 * @event evenfield-unit - {LengthUnit} when centimetres or inches were chosen
 */
@customElement('evenfield-setup-sentence')
export class EvenfieldSetupSentence extends LitElement {
  static override styles = [type, sentenceStyles];

  /** As entered for the first take of the set-up. */
  @property({ attribute: false }) setup: Setup = UNKNOWN_SETUP;
  /** As it stands at the take that is shown. */
  @property({ attribute: false }) standsNow: Setup = UNKNOWN_SETUP;
  @property({ attribute: false }) tolerance: Tolerance = DEFAULT_TOLERANCE;
  @property({ attribute: false }) aim: Aim = EVEN;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const { arrangement, frameWidthMm, light } = this.setup;
    return html`<p>
        ${wordChoice('Arrangement of the light', arrangement, ARRANGEMENT_WORDS, (chosen) =>
          this.tell('evenfield-setup', withArrangement(this.setup, chosen)),
        )},
        ${wordChoice('Kind of light', light ?? 'unknown', LIGHT_WORDS, (chosen) =>
          this.change({ light: chosen === 'unknown' ? null : chosen }),
        )};
        the frame shows
        ${this.length('Width of background that the frame shows', frameWidthMm, 'an unknown width', (mm) => this.change({ frameWidthMm: mm }))}${this.distances()}.
        Judged by ${this.yardstick()}.
        <evenfield-aim .aim=${this.aim}></evenfield-aim> Lengths in
        ${wordChoice('Unit of length', this.unit, { cm: 'centimetres', in: 'inches' }, (chosen) => this.tell('evenfield-unit', chosen))}.
      </p>
      <p class="small quiet source" id="source">${this.tolerance.source}</p>
      ${this.more()}`;
  }

  /** Where each light stands and can go; nothing for a panel, which is the background itself. */
  private distances() {
    const { arrangement, room } = this.setup;
    if (arrangement === 'panel') return nothing;
    const names = lightNames(arrangement);
    const each = names.map((name, lamp) => {
      const label = names.length === 1 ? 'Distance of the light' : `Distance of ${name}`;
      const mm = this.setup.lampDistanceMm[lamp] ?? null;
      const isMoved = mm !== (this.standsNow.lampDistanceMm[lamp] ?? null);
      const control = this.length(label, mm, 'an unknown distance', (typed) =>
        this.tell('evenfield-setup', withLightDistance(this.setup, lamp, typed)),
      );
      return html`${lamp === 0 ? '; ' : ', '}${name} ${isMoved ? 'stood' : 'stands'} ${control} ${FROM_WORDS[arrangement]}${isMoved ? ' at the first take' : nothing}`;
    });
    return html`${each}${reachWords(arrangement)}
    ${this.length('Farthest the light can go', room.reachMm, 'an unknown distance', (mm) => this.change({ room: { ...room, reachMm: mm } }))}`;
  }

  /** What sharpens the figures in centimetres, for whoever has measured it. */
  private more() {
    const { arrangement, room, lampWidthMm, cameraDistanceMm } = this.setup;
    const camera = this.length(
      'Distance of the lens from the background',
      cameraDistanceMm,
      'an unknown distance',
      (mm) => this.change({ cameraDistanceMm: mm }),
    );
    if (arrangement === 'panel')
      return html`<details>
        <summary class="small">Place of the camera</summary>
        <p>The lens stands ${camera} from the panel.</p>
      </details>`;
    return html`<details>
      <summary class="small">Size of the light, camera and room to move</summary>
      <p>
        ${arrangement === 'two-lamps' ? 'Each light is' : 'The light is'}
        ${this.length('Width of the light', lampWidthMm, 'an unknown width', (mm) => this.change({ lampWidthMm: mm }))}
        wide; the lens stands ${camera} from the background. From the frame’s centre ${arrangement === 'two-lamps' ? 'a light' : 'the light'} can go
        ${ROOM_WORDS.map(
          ([field, word, name], i) =>
            html`${i === 0 ? nothing : i === ROOM_WORDS.length - 1 ? ' and ' : ', '}${this.length(name, room[field], 'any distance', (mm) => this.change({ room: { ...room, [field]: mm } }), 0)} ${word}`,
        )}.
      </p>
    </details>`;
  }

  private yardstick() {
    const isOwn = isOwnTolerance(this.tolerance);
    const isOffered = isOwn || TOLERANCES.some(({ name }) => name === this.tolerance.name);
    const offered = isOffered ? TOLERANCES : [this.tolerance, ...TOLERANCES];
    const choose = (event: Event) =>
      this.tell(
        'evenfield-tolerance',
        offered[(event.target as HTMLSelectElement).selectedIndex] ?? ownTolerance(this.tolerance),
      );
    return html`<select aria-label="Yardstick" aria-describedby="source" @change=${choose}>
        ${offered.map(({ name }) => html`<option ?selected=${!isOwn && name === this.tolerance.name}>${name}</option>`)}
        <option ?selected=${isOwn}>${OWN_LIMIT}</option></select
      >${isOwn ? html`: <evenfield-own-tolerance .tolerance=${this.tolerance}></evenfield-own-tolerance>` : nothing}`;
  }

  private length(
    name: string,
    mm: number | null,
    unknown: string,
    change: (mm: number | null) => void,
    least: 0 | 'some' = 'some',
  ) {
    const words = mm === null ? '' : lengthWords(mm, this.unit);
    const read = (event: Event) => {
      const input = event.target as HTMLInputElement;
      const typed = parseLength(input.value, this.unit, least);
      if (typed === null && input.value.trim() !== '') {
        this.tell('evenfield-slip', slipWords(input.value.trim(), words === '' ? unknown : words));
        input.value = words; // a slip changes nothing
        return;
      }
      input.value = typed === null ? '' : lengthWords(typed, this.unit);
      change(typed);
    };
    return html`<input aria-label=${name} inputmode="decimal" autocomplete="off" placeholder=${unknown} .value=${words} @change=${read} />`;
  }

  private change(part: Partial<Setup>): void {
    this.tell('evenfield-setup', { ...this.setup, ...part });
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-setup-sentence': EvenfieldSetupSentence;
  }
}
