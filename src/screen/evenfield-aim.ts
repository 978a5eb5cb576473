import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type Aim, EVEN } from '../engine/aim.ts';
import { AIM_LIMITS } from '../engine/check-aim.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { typedFigure } from './typed-figure.ts';
import { wordChoice } from './word-choice.ts';
import { AIM_KIND_WORDS, FIRST_AIM, RAMP_SIDES, sideWords } from './words/aim-words.ts';
import { figureSlipWords, parseCode, parseStops, stopsFigure } from './words/parse-stops.ts';
import { trimmed } from './words/tolerance-words.ts';

type OfKind<K extends Aim['kind']> = Extract<Aim, { kind: K }>;

/** Where a level of one's own begins: well inside what clips, and white to the eye. */
const FIRST_WHITE_CODE = 250;

/**
 * What the background is to become, as part of the set-up sentence.
 * @event evenfield-aim - {Aim} when a word of it was changed
 * @event evenfield-slip - {string | null} what was typed and not understood, in a sentence; `null` once it is
 */
@customElement('evenfield-aim')
export class EvenfieldAim extends LitElement {
  static override styles = [
    type,
    sentenceStyles,
    css`
      :host {
        display: inline;
      }
      input {
        min-width: 1.5ch;
      }
    `,
  ];

  @property({ attribute: false }) aim: Aim = EVEN;

  override render() {
    const { aim } = this;
    return html`The background is to be
    ${wordChoice('Aim', aim.kind, AIM_KIND_WORDS, (kind) => this.tell(FIRST_AIM[kind]))}${
      aim.kind === 'clean-white' ? this.white(aim) : aim.kind === 'ramp' ? this.ramp(aim) : nothing
    }.`;
  }

  private white(aim: OfKind<'clean-white'>) {
    const { whiteCode, mostOverEv } = aim;
    const words = { clip: 'where the file clips', code: 'from a code value on:' };
    const choice = wordChoice('Paper white', whiteCode === null ? 'clip' : 'code', words, (chosen) =>
      this.tell({ ...aim, whiteCode: chosen === 'clip' ? null : FIRST_WHITE_CODE }),
    );
    const change = (code: number) => ({ ...aim, whiteCode: code });
    const code =
      whiteCode === null
        ? nothing
        : html` ${this.figure('Code of paper white', trimmed(whiteCode, 1), 'whiteCode', 'of 255, or in %', parseCode, change)} of 255`;
    return html`, ${choice}${code}, its hottest at most
    ${this.figure('Most over paper white', stopsFigure(mostOverEv), 'mostOverEv', 'stops', parseStops, (stops) => ({ ...aim, mostOverEv: stops }))}
    ${mostOverEv > 1 ? 'stops' : 'stop'} over it`;
  }

  private ramp(aim: OfKind<'ramp'>) {
    const { angleDeg, ev } = aim;
    const sides = Object.fromEntries(RAMP_SIDES.map((side, i) => [String(45 * i), `the ${side}`]));
    const now = String(angleDeg % 360);
    if (sides[now] === undefined) sides[now] = `the ${sideWords(angleDeg)}`;
    return html` of
    ${this.figure('Stops of the ramp', stopsFigure(ev), 'ev', 'stops', parseStops, (stops) => ({ ...aim, ev: stops }))}
    ${ev > 1 ? 'stops' : 'stop'}, brighter towards
    ${wordChoice('Brighter side of the ramp', now, sides, (chosen) => this.tell({ ...aim, angleDeg: Number(chosen) }))}`;
  }

  private figure(
    name: string,
    shown: string,
    field: keyof typeof AIM_LIMITS,
    unit: string,
    parse: typeof parseStops,
    changed: (figure: number) => Aim,
  ) {
    const bounds = AIM_LIMITS[field];
    return typedFigure({
      name,
      shown,
      parse: (text) => parse(text, bounds),
      slip: (typed) => figureSlipWords(typed, bounds, unit, shown),
      change: (figure) => this.tell(changed(figure)),
    });
  }

  private tell(aim: Aim): void {
    this.dispatchEvent(new CustomEvent('evenfield-aim', { detail: aim, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-aim': EvenfieldAim;
  }
}
