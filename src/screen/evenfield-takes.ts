import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Tolerance } from '../engine/tolerance.ts';
import type { HeldTake } from '../takes/take.ts';
import './evenfield-takes-line.ts';
import { takesStyles } from './evenfield-takes.styles.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { evenerTakeWords } from './words/evener-take-words.ts';
import type { LengthUnit } from './words/length-words.ts';
import { bestTakeWords, foretoldWords, sinceWords, takeFigure, takeName } from './words/take-words.ts';

/** What somebody wrote beside a take. */
export interface TakeNote {
  readonly id: string;
  readonly note: string;
}

/**
 * The takes in order: as a line that goes down into the tolerance, and as a table.
 * @event evenfield-show-take - {string} the id of the take to show
 * @event evenfield-note - {TakeNote} when a note was written
 */
@customElement('evenfield-takes')
export class EvenfieldTakes extends OwnTaskElement {
  static override styles = [type, takesStyles];

  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() shown = '';
  @property() unit: LengthUnit = 'cm';

  override render() {
    const best = bestTakeWords(this.takes, this.tolerance);
    return html`<h2>Takes</h2>
      ${best === null ? nothing : html`<p class="large">${best}</p>`}
      ${this.wayBack()}
      <evenfield-takes-line
        .takes=${this.takes}
        .tolerance=${this.tolerance}
        .shown=${this.shown}
      ></evenfield-takes-line>
      <div class="fold"><table role="table">
        <thead role="rowgroup">
          <tr role="row">
            <th scope="col" role="columnheader">Take</th>
            <th scope="col" role="columnheader">Judged</th>
            <th scope="col" role="columnheader">Note</th>
          </tr>
        </thead>
        <tbody role="rowgroup">
          ${this.takes.map((take, i) => this.row(take, i))}
        </tbody>
      </table></div>`;
  }

  private wayBack() {
    const evener = evenerTakeWords(this.takes, this.tolerance, this.unit);
    if (evener === null) return nothing;
    const { says, steps } = evener;
    return html`<p>${says}</p>
      ${steps.length === 0 ? nothing : html`<ul>${steps.map((step) => html`<li>${step}</li>`)}</ul>`}`;
  }

  private row(take: HeldTake, i: number) {
    const foretold = foretoldWords(take, this.tolerance);
    return html`<tr role="row">
      <th scope="row" role="rowheader">
        <button aria-current=${take.id === this.shown ? 'true' : 'false'} @click=${() => this.show(take.id)}>
          Take ${i + 1}<span class="small name">${takeName(take)}</span>
        </button>
      </th>
      <td role="cell">
        ${takeFigure(take.reading.falloff, this.tolerance)}
        ${foretold === null ? nothing : html`<span class="small quiet">${foretold}</span>`}
        <span class="small quiet">${sinceWords(take, i === 0)}</span>
      </td>
      <td role="cell">
        <textarea
          rows="2"
          aria-label=${`Note on take ${i + 1}`}
          placeholder="a note"
          .value=${take.note}
          @change=${(event: Event) => this.note(take.id, (event.target as HTMLTextAreaElement).value)}
        ></textarea>
      </td>
    </tr>`;
  }

  private show(id: string): void {
    this.tell('evenfield-show-take', id);
  }

  private note(id: string, note: string): void {
    const detail: TakeNote = { id, note };
    this.tell('evenfield-note', detail);
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-takes': EvenfieldTakes;
  }
}
