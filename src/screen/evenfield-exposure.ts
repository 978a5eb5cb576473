import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import {
  BLANK_GOAL,
  type ExposureGoal,
  exposureChange,
  type SubjectLevel,
} from '../engine/exposure/exposure-goal.ts';
import { isBeyondSync, waysToExpose } from '../engine/exposure/ways-to-expose.ts';
import type { Setup } from '../engine/setup.ts';
import type { FullTake } from '../takes/take.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { typedFigure } from './typed-figure.ts';
import { wordChoice } from './word-choice.ts';
import {
  BEYOND_SYNC,
  changeSentence,
  clipsWords,
  EXPOSURE_PRACTICE,
  levelSentences,
  NO_EXIF,
  parsePower,
  powerWords,
  wayWords,
} from './words/exposure-words.ts';
import { type Bounds, figureSlipWords, parseCode, parseStops, stopsFigure } from './words/parse-stops.ts';
import { trimmed } from './words/tolerance-words.ts';

const GOAL_WORDS: Record<ExposureGoal['kind'], string> = {
  'below-clipping': 'its hottest part',
  code: 'its mean to a code value',
  'over-subject': 'its mean over the subject',
};

/** Each goal as it is first chosen. */
const FIRST_GOALS: Record<ExposureGoal['kind'], ExposureGoal> = {
  'below-clipping': BLANK_GOAL,
  code: { kind: 'code', code: 240 },
  'over-subject': { kind: 'over-subject', stops: 1, subject: { kind: 'code', code: null } },
};

const SUBJECT_WORDS: Record<SubjectLevel['kind'], string> = {
  code: 'reads code',
  metered: 'is metered: the background lies over it by',
};

const STOPS_BELOW: Bounds = { least: 0, most: 8 };
const STOPS_OVER: Bounds = { least: 0, most: 5 };
const CODES: Bounds = { least: 1, most: 255 };

/**
 * How far the background stands below clipping, and what brings it to another level.
 * @event evenfield-slip - {string | null} what was typed and not understood, in a sentence; `null` once it is
 */
@customElement('evenfield-exposure')
export class EvenfieldExposure extends OwnTaskElement {
  static override styles = [
    type,
    sentenceStyles,
    css`
      p,
      ul {
        max-width: 80ch;
      }
      .change {
        margin-top: 0.25rem;
        font-size: var(--large-size);
      }
      input {
        min-width: 1.75rem; /* as wide as a finger needs at least */
      }
      ul {
        margin: 0.25rem 0;
        padding-left: 1.25em;
        line-height: 1.6;
      }
      .words,
      .small {
        line-height: 1.5;
      }
    `,
  ];

  @property({ attribute: false }) take!: FullTake;
  /** As it stands at the take. */
  @property({ attribute: false }) setup!: Setup;

  @state() private goal: ExposureGoal = BLANK_GOAL;
  /** Share of full power; `null`: nobody said. */
  @state() private power: number | null = null;

  override render() {
    const { level, grid } = this.take.report;
    const change = exposureChange(this.goal, level, grid);
    const clips = clipsWords(change);
    return html`<h2>Exposure</h2>
      ${levelSentences(level).map((says) => html`<p class="words">${says}</p>`)}
      <p>
        Bring ${wordChoice('What is brought to a level', this.goal.kind, GOAL_WORDS, (kind) => this.aimAt(FIRST_GOALS[kind]))}
        ${this.level(this.goal)}. The light’s power stands at ${this.powerNow()}.
      </p>
      <p class="words change">${changeSentence(change, this.goal)} ${clips ?? nothing}</p>
      ${change.stops === null ? nothing : this.ways(change.stops, change.isLightAlone)}
      <p class="small quiet">${EXPOSURE_PRACTICE}</p>`;
  }

  private level(goal: ExposureGoal) {
    switch (goal.kind) {
      case 'below-clipping':
        return html`to
        ${this.stops('Stops below clipping', goal.stops, STOPS_BELOW, (stops) => ({ ...goal, stops }))}
        ${goal.stops > 1 ? 'stops' : 'stop'} below clipping`;
      case 'code':
        return html`${this.code('Code value of the mean', goal.code, (code) => ({ ...goal, code }))} of 255`;
      case 'over-subject':
        return html`by
        ${this.stops('Stops over the subject', goal.stops, STOPS_OVER, (stops) => ({ ...goal, stops }))}
        ${goal.stops > 1 ? 'stops' : 'stop'}; the subject ${this.subject(goal)}`;
    }
  }

  private subject(goal: Extract<ExposureGoal, { kind: 'over-subject' }>) {
    const { subject } = goal;
    const choice = wordChoice('How the subject’s level is known', subject.kind, SUBJECT_WORDS, (kind) =>
      this.aimAt({
        ...goal,
        subject: kind === 'code' ? { kind, code: null } : { kind, overEv: null },
      }),
    );
    if (subject.kind === 'code')
      return html`${choice} ${this.code('Code value of the subject', subject.code, (code) => ({ ...goal, subject: { ...subject, code } }))} of 255`;
    return html`${choice}
    ${this.stops('Stops metered over the subject', subject.overEv, STOPS_OVER, (overEv) => ({ ...goal, subject: { ...subject, overEv } }))}
    ${(subject.overEv ?? 0) > 1 ? 'stops' : 'stop'}`;
  }

  private stops(name: string, now: number | null, bounds: Bounds, changed: (figure: number) => ExposureGoal) {
    return this.figure(name, now === null ? '' : stopsFigure(now), bounds, 'stops', parseStops, changed);
  }

  private code(name: string, now: number | null, changed: (figure: number) => ExposureGoal) {
    return this.figure(
      name,
      now === null ? '' : trimmed(now, 1),
      CODES,
      'of 255, or in %',
      parseCode,
      changed,
    );
  }

  private figure(
    name: string,
    shown: string,
    bounds: Bounds,
    unit: string,
    parse: typeof parseStops,
    changed: (figure: number) => ExposureGoal,
  ) {
    return typedFigure({
      name,
      shown,
      unknown: 'unknown',
      parse: (text) => parse(text, bounds),
      slip: (typed) => figureSlipWords(typed, bounds, unit, shown || 'what stands there'),
      change: (figure) => this.aimAt(changed(figure)),
    });
  }

  private powerNow() {
    const shown = this.power === null ? '' : powerWords(this.power);
    return typedFigure({
      name: 'Power of the light',
      shown,
      unknown: 'an unknown power',
      parse: parsePower,
      slip: (typed) =>
        `“${typed}” is no power as “1/4” or “1/8 + 0.3”: ${shown || 'an unknown power'} stays.`,
      change: (power) => {
        this.power = power;
      },
      clear: () => {
        this.power = null;
      },
    });
  }

  private ways(stops: number, isLightAlone: boolean) {
    const { exposure } = this.take.reading.frame;
    const { light } = this.setup;
    const ways = waysToExpose(stops, { exposure, light, power: this.power, isLightAlone });
    const isSaid = exposure?.seconds != null || exposure?.fNumber != null || exposure?.iso != null;
    return html`${ways.length === 0 ? nothing : html`<ul>${ways.map((way) => html`<li>${wayWords(way)}</li>`)}</ul>`}
      ${isSaid || isLightAlone ? nothing : html`<p class="words quiet">${NO_EXIF}</p>`}
      ${isBeyondSync(exposure, light) ? html`<p class="words">${BEYOND_SYNC}</p>` : nothing}`;
  }

  private aimAt(goal: ExposureGoal): void {
    this.goal = goal;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-exposure': EvenfieldExposure;
  }
}
