import { html, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { SetReading } from '../engine/lamps/set-reading.ts';
import type { Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import { planInput } from '../plots/plan-input.ts';
import { NOTE_LINE_HEIGHT, type PlacedNote } from '../plots/plan-notes.ts';
import { firstSide, NARROWEST_PLAN, type PlanPage, planPage } from '../plots/plan-page.ts';
import type { PlanSide } from '../plots/plan-projection.ts';
import { hasHeights, type PlanView } from '../plots/plan-view.ts';
import { planStyles } from './evenfield-plan.styles.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { OwnWidth } from './own-width.ts';
import { type } from './paper.ts';
import type { LengthUnit } from './words/length-words.ts';
import { hiddenFrom, planNotes, planSummary, scaleWords } from './words/plan-words.ts';

/** Beyond it, in CSS pixels, a plan is no wider. */
const WIDEST = 500;
/** Of the type that a note's 14 units are the small print of. */
const USUAL_TYPE_PX = 16;

/** The set seen from above, as far as it is known; from the side too, where heights matter. */
@customElement('evenfield-plan')
export class EvenfieldPlan extends OwnTaskElement {
  static override styles = [type, planStyles];

  private readonly ownWidth = new OwnWidth(this, WIDEST);
  /** `null` until one was chosen: then the one that shows more of the moves. */
  @state() private chosenSide: PlanSide | null = null;

  @property({ attribute: false }) reading!: Reading;
  /** As it stands at this reading. */
  @property({ attribute: false }) setup!: Setup;
  /** The set as fitted, where it explains the frame. */
  @property({ attribute: false }) set: SetReading | null = null;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const input = planInput(this.reading, this.setup, this.set);
    const isTwofold = hasHeights(input);
    const seenFrom = this.chosenSide ?? firstSide(input);
    const notesOn = (view: PlanView) => planNotes(view, input, this.unit);
    const page = planPage(input, isTwofold ? seenFrom : 'above', notesOn, this.pageWidth);
    const hidden = hiddenFrom(page.view, input);
    const says = planSummary(page.view, input, this.unit);
    return html`<h2>The set</h2>
      ${isTwofold ? this.switch(seenFrom) : nothing} ${this.drawing(page, says)}
      <p class="in-words" aria-hidden="true">${says}</p>
      <p class="small quiet">${scaleWords(page.view, this.setup)}${hidden === null ? '' : ` ${hidden}`}</p>`;
  }

  /** As the page's type is large, so much less fits: a unit is as large as its notes ask for. */
  private get pageWidth(): number {
    const typePx = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    return Math.max(NARROWEST_PLAN, (this.ownWidth.px * USUAL_TYPE_PX) / typePx);
  }

  private drawing({ view, width, height, drawnAt, notes }: PlanPage, says: string) {
    const { lengths } = view;
    const sure = (isKnown: boolean) => (isKnown ? 'sure' : 'unsure');
    return html`<svg role="img" aria-labelledby="name" aria-describedby="says" viewBox="0 0 ${width} ${height}">
      <title id="name">Plan of the set, seen from ${view.seenFrom === 'above' ? 'above' : 'the side'}</title>
      <desc id="says">${says}</desc>
      ${notes.map(({ leaderPath }) => svg`<path class="leader" d=${leaderPath} />`)}
      <g transform=${`translate(${drawnAt[0]} ${drawnAt[1]})`}>
        ${this.spreads(view)}
        <path class="somewhere" d=${view.lights.map(({ somewherePath }) => somewherePath).join('')} />
        ${view.lights.map(({ axisPath }, i) => svg`<path class=${sure(lengths.lampDistances[i]!.isKnown)} d=${axisPath} />`)}
        <path class=${sure(lengths.cameraDistance.isKnown)} d=${view.sightPath} />
        <path class="unsure" d=${view.beyondFramePath} />
        <path class="frame" d=${view.frame.path} />
        <path class="hottest" d=${view.hottest.path} />
        ${view.brighter === null ? nothing : svg`<path class="sure" d=${view.brighter.path} />`}
        ${view.spill === null ? nothing : svg`<path class="spill" d=${view.spill.path} />`}
        ${view.lights.map(({ path, isFound }) => svg`<path class=${isFound ? 'light' : 'light unsure'} d=${path} />`)}
        <circle class="camera" cx=${view.camera[0]} cy=${view.camera[1]} r="4" />
        <path class="breaks" d=${view.breaksPath} />
        ${view.moves.map(
          ({ path, headPath, isMeasured }) =>
            svg`<path class=${isMeasured ? 'move' : 'move unsure'} d=${path} /><path class="move" d=${headPath} />`,
        )}
      </g>
      ${notes.map((note) => this.note(note))}
    </svg>`;
  }

  /** Where lights may well stand, fading out where that reaches beyond what is drawn. */
  private spreads({ lights, width, height }: PlanView) {
    const spreads = lights.flatMap(({ spread }) => spread ?? []);
    if (spreads.length === 0) return nothing;
    const isCut = spreads.some((each) => each.isCut);
    return svg`<defs>
        <radialGradient id="soft">
          <stop offset="0" stop-color="currentColor" stop-opacity="0.45" />
          <stop offset="0.5" stop-color="currentColor" stop-opacity="0.25" />
          <stop offset="1" stop-color="currentColor" stop-opacity="0.04" />
        </radialGradient>
        ${
          isCut
            ? svg`<filter id="fade"><feGaussianBlur stdDeviation="5" /></filter>
              <mask id="room" maskUnits="userSpaceOnUse" x="0" y="0" width=${width} height=${height}>
                <rect x="12" y="12" width=${width - 24} height=${height - 24} fill="white" filter="url(#fade)" />
              </mask>`
            : nothing
        }
      </defs>
      <g mask=${isCut ? 'url(#room)' : nothing}>
        ${spreads.map(
          ({ centre: [x, y], radius, turnDeg }) =>
            svg`<ellipse class="spread" cx=${x} cy=${y} rx=${radius[0]} ry=${radius[1]} transform=${`rotate(${turnDeg} ${x} ${y})`} />`,
        )}
      </g>`;
  }

  private note({ lines, textAt, anchor }: PlacedNote) {
    return svg`<text text-anchor=${anchor} aria-hidden="true">${lines.map(
      (line, i) => svg`<tspan x=${textAt[0]} y=${textAt[1] + i * NOTE_LINE_HEIGHT}>${line}</tspan>`,
    )}</text>`;
  }

  private switch(seenFrom: PlanSide) {
    const choice = (side: PlanSide, label: string) =>
      html`<label
        ><input
          type="radio"
          name="side"
          .checked=${seenFrom === side}
          @change=${() => {
            this.chosenSide = side;
          }}
        />${label}</label
      >`;
    return html`<div class="switch" role="radiogroup" aria-label="Show the set">
      ${choice('above', 'From above')} ${choice('side', 'From the side')}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-plan': EvenfieldPlan;
  }
}
