import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type Setup, UNKNOWN_SETUP } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../engine/tolerances.ts';
import { type } from './paper.ts';
import { type LengthUnit, lengthWords, parseLength } from './words/length-words.ts';
import { ARRANGEMENT_WORDS, LIGHT_WORDS, lampDistances, standsWords } from './words/setup-words.ts';

/**
 * The set-up as one sentence whose words are the controls.
 * @event evenfield-setup - {Setup} when a word of the set-up was changed
 * @event evenfield-tolerance - {Tolerance} when another yardstick was chosen
 * @event evenfield-unit - {LengthUnit} when centimetres or inches were chosen
 */
@customElement('evenfield-setup-sentence')
export class EvenfieldSetupSentence extends LitElement {
  static override styles = [
    type,
    css`
      p {
        margin: 0;
        line-height: 2;
      }
      .source {
        max-width: 80ch;
        line-height: 1.5;
      }
      select,
      input {
        height: 1.75rem;
        vertical-align: middle;
        line-height: 1.5;
        padding: 0;
        border: 0;
        border-bottom: 2px solid var(--rule);
        border-radius: 0;
        background: var(--ground);
        color: inherit;
        font: inherit;
        font-weight: 600;
        field-sizing: content;
        max-width: 100%;
      }
      input {
        min-width: 3ch;
      }
      input::placeholder {
        color: var(--quiet-ink);
        font-weight: 400;
        opacity: 1;
      }
    `,
  ];

  @property({ attribute: false }) setup: Setup = UNKNOWN_SETUP;
  @property({ attribute: false }) tolerance: Tolerance = DEFAULT_TOLERANCE;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const { arrangement, frameWidthMm, lampDistanceMm, room, light } = this.setup;
    return html`<p>
      ${this.choice('Arrangement of the light', arrangement, ARRANGEMENT_WORDS, (chosen) => this.change({ arrangement: chosen }))},
      ${this.choice('Kind of light', light ?? 'unknown', LIGHT_WORDS, (chosen) =>
        this.change({ light: chosen === 'unknown' ? null : chosen }),
      )};
      the frame shows ${this.length('Width of background that the frame shows', frameWidthMm, 'an unknown width', (mm) => this.change({ frameWidthMm: mm }))};
      ${standsWords(arrangement)}
      ${this.length('Distance of the light', lampDistanceMm[0] ?? null, 'an unknown distance', (mm) =>
        this.change({ lampDistanceMm: lampDistances(arrangement, mm) }),
      )}
      back and can go to
      ${this.length('Farthest the light can go', room.reachMm, 'an unknown distance', (mm) => this.change({ room: { ...room, reachMm: mm } }))}.
      Judged by ${this.yardstick()}, in
      ${this.choice('Unit of length', this.unit, { cm: 'centimetres', in: 'inches' }, (chosen) => this.tell('evenfield-unit', chosen))}.
    </p>
      <p class="small quiet source" id="source">${this.tolerance.source}</p>`;
  }

  private choice<T extends string>(
    name: string,
    now: T,
    words: Record<T, string>,
    choose: (chosen: T) => void,
  ) {
    return html`<select aria-label=${name} @change=${(event: Event) => choose((event.target as HTMLSelectElement).value as T)}>
      ${(Object.keys(words) as T[]).map((key) => html`<option value=${key} ?selected=${key === now}>${words[key]}</option>`)}
    </select>`;
  }

  private yardstick() {
    const isBuiltIn = TOLERANCES.some(({ name }) => name === this.tolerance.name);
    const offered = isBuiltIn ? TOLERANCES : [this.tolerance, ...TOLERANCES];
    const choose = (event: Event) => {
      const tolerance = offered[(event.target as HTMLSelectElement).selectedIndex];
      this.tell('evenfield-tolerance', tolerance);
    };
    return html`<select aria-label="Yardstick" aria-describedby="source" @change=${choose}>
        ${offered.map(({ name }) => html`<option ?selected=${name === this.tolerance.name}>${name}</option>`)}</select>`;
  }

  private length(name: string, mm: number | null, unknown: string, change: (mm: number | null) => void) {
    const words = mm === null ? '' : lengthWords(mm, this.unit);
    const read = (event: Event) => {
      const input = event.target as HTMLInputElement;
      const typed = parseLength(input.value, this.unit);
      const isSlip = typed === null && input.value.trim() !== '';
      input.value = isSlip ? words : typed === null ? '' : lengthWords(typed, this.unit); // a slip changes nothing
      if (!isSlip) change(typed);
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
