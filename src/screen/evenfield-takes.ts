import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Tolerance } from '../engine/tolerance.ts';
import type { DeletedTake } from '../takes/deleted-take.ts';
import type { HeldTake } from '../takes/take.ts';
import './evenfield-deleted-take.ts';
import './evenfield-takes-line.ts';
import './evenfield-takes-list.ts';
import { takesStyles } from './evenfield-takes.styles.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { evenerTakeWords } from './words/evener-take-words.ts';
import type { LengthUnit } from './words/length-words.ts';
import { bestTakeWords } from './words/take-words.ts';

/** So many of the newest takes are drawn and listed; the older ones where they are asked for. */
const NEWEST = 15;

/** The takes in order: as a line that goes down into the tolerance, and as a table. */
@customElement('evenfield-takes')
export class EvenfieldTakes extends OwnTaskElement {
  static override styles = [type, takesStyles];

  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() shown = '';
  @property() unit: LengthUnit = 'cm';
  @property({ attribute: false }) deleted: DeletedTake | null = null;
  @state() private listsAll = false;

  override render() {
    const { takes, tolerance, shown } = this;
    const best = bestTakeWords(takes, tolerance);
    const newest = this.listsAll ? takes : takes.slice(-NEWEST);
    const older = takes.length - newest.length;
    const isOlder = older > 0 && !newest.some(({ id }) => id === shown);
    const listed = isOlder ? [...takes.filter(({ id }) => id === shown), ...newest] : newest;
    return html`<h2>Takes</h2>
      ${best === null ? nothing : html`<p class="large">${best}</p>`}
      ${this.wayBack()}
      <evenfield-deleted-take .deleted=${this.deleted}></evenfield-deleted-take>
      ${
        older === 0
          ? nothing
          : html`<p class="older">
              <span>The newest ${newest.length} of ${takes.length}.</span>
              <button
                @click=${() => {
                  this.listsAll = true;
                }}
              >Show all ${takes.length}</button>
            </p>`
      }
      <evenfield-takes-line .takes=${newest} .tolerance=${tolerance} .shown=${shown}></evenfield-takes-line>
      <evenfield-takes-list .takes=${listed} .first=${takes[0]?.id ?? ''} .tolerance=${tolerance} .shown=${shown}></evenfield-takes-list>`;
  }

  private wayBack() {
    const evener = evenerTakeWords(this.takes, this.tolerance, this.unit);
    if (evener === null) return nothing;
    const { says, steps } = evener;
    return html`<p>${says}</p>
      ${steps.length === 0 ? nothing : html`<ul>${steps.map((step) => html`<li>${step}</li>`)}</ul>`}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-takes': EvenfieldTakes;
  }
}
