import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import { NOTE_LINE_HEIGHT, type PlacedNote } from '../plots/plan-notes.ts';
import { firstSide, type PlanPage, planPage } from '../plots/plan-page.ts';
import type { PlanSide } from '../plots/plan-projection.ts';
import { hasHeights, planInput } from '../plots/plan-view.ts';
import { planStyles } from './evenfield-plan.styles.ts';
import { type } from './paper.ts';
import type { LengthUnit } from './words/length-words.ts';
import { hiddenMoves, planNotes, planSummary, scaleWords } from './words/plan-words.ts';

/** The set seen from above, as far as it is known; from the side too, where heights matter. */
@customElement('evenfield-plan')
export class EvenfieldPlan extends LitElement {
  static override styles = [type, planStyles];

  /** `null` until one was chosen: then the one that shows more of the moves. */
  @state() private chosenSide: PlanSide | null = null;

  @property({ attribute: false }) reading!: Reading;
  /** As it stands at this reading. */
  @property({ attribute: false }) setup!: Setup;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const input = planInput(this.reading, this.setup);
    const isTwofold = hasHeights(input);
    const seenFrom = this.chosenSide ?? firstSide(input);
    const page = planPage(input, isTwofold ? seenFrom : 'above', (view) => planNotes(view, input, this.unit));
    const hidden = hiddenMoves(page.view, input);
    return html`<h2>The set</h2>
      ${isTwofold ? this.switch(seenFrom) : nothing} ${this.drawing(page, planSummary(page.view, input, this.unit))}
      <p class="small quiet">${scaleWords(page.view, this.setup)}${hidden === null ? '' : ` ${hidden}`}</p>`;
  }

  private drawing({ view, width, height, drawnAt, notes }: PlanPage, says: string) {
    const { lengths } = view;
    const sure = (isKnown: boolean) => (isKnown ? 'sure' : 'unsure');
    return html`<svg role="img" aria-labelledby="name" aria-describedby="says" viewBox="0 0 ${width} ${height}">
      <title id="name">Plan of the set, seen from ${view.seenFrom === 'above' ? 'above' : 'the side'}</title>
      <desc id="says">${says}</desc>
      ${notes.map(({ leaderPath }) => svg`<path class="leader" d=${leaderPath} />`)}
      <g transform=${`translate(${drawnAt[0]} ${drawnAt[1]})`}>
        <path class="somewhere" d=${view.somewherePaths.join('')} />
        ${view.distancePaths.map((path, i) => svg`<path class=${sure(lengths.lampDistances[i]!.isKnown)} d=${path} />`)}
        <path class=${sure(lengths.cameraDistance.isKnown)} d=${view.sightPath} />
        <path class="unsure" d=${view.beyondFramePath} />
        <path class="frame" d=${view.frame.path} />
        <path class="hottest" d=${view.hottest.path} />
        ${view.brighter === null ? nothing : svg`<path class="sure" d=${view.brighter.path} />`}
        ${view.lamps.map(({ path }) => svg`<path class="lamp" d=${path} />`)}
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
