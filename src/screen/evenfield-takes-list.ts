import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Tolerance } from '../engine/tolerance.ts';
import { type HeldTake, takeNumber } from '../takes/take.ts';
import './evenfield-take-picture.ts';
import { takesListStyles } from './evenfield-takes-list.styles.ts';
import { type } from './paper.ts';
import { foretoldWords, shotWords, sinceWords, takeFigure, takeName } from './words/take-words.ts';

/** What somebody wrote beside a take. */
export interface TakeNote {
  readonly id: string;
  readonly note: string;
}

/**
 * Takes as a table: what each is, how it was judged, and what was noted.
 * @event evenfield-show-take - {string} the id of the take to show
 * @event evenfield-delete-take - {string} the id of the take to delete
 * @event evenfield-note - {TakeNote} when a note was written
 */
@customElement('evenfield-takes-list')
export class EvenfieldTakesList extends LitElement {
  static override styles = [type, takesListStyles];

  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  /** The id of the first of all takes. */
  @property() first = '';
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() shown = '';

  override render() {
    return html`<table role="table">
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader">Take</th>
          <th scope="col" role="columnheader">Judged</th>
          <th scope="col" role="columnheader">Note</th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        ${repeat(
          this.takes,
          ({ id }) => id,
          (take) => this.row(take),
        )}
      </tbody>
    </table>`;
  }

  private row(take: HeldTake) {
    const { id } = take;
    const number = takeNumber(take);
    const foretold = foretoldWords(take, this.tolerance);
    return html`<tr role="row">
      <th scope="row" role="rowheader">
        <button
          class="show"
          aria-current=${id === this.shown ? 'true' : 'false'}
          @click=${() => this.tell('evenfield-show-take', id)}
        >
          <evenfield-take-picture .take=${take}></evenfield-take-picture>
          Take ${number}<span class="small name">${takeName(take)}</span>
        </button>
      </th>
      <td role="cell">
        ${takeFigure(take.reading.falloff, this.tolerance)}
        ${foretold === null ? nothing : html`<span class="small quiet">${foretold}</span>`}
        <span class="small quiet">${sinceWords(take, id === this.first)}</span>
        <span class="small quiet">${shotWords(take.shotAt, Date.now())}</span>
      </td>
      <td role="cell">
        <textarea
          rows="2"
          aria-label=${`Note on take ${number}`}
          placeholder="a note"
          .value=${take.note}
          @change=${(event: Event) => {
            const detail: TakeNote = { id, note: (event.target as HTMLTextAreaElement).value };
            this.tell('evenfield-note', detail);
          }}
        ></textarea>
        <button class="small" aria-label="Delete take ${number}" @click=${() => this.tell('evenfield-delete-take', id)}>Delete</button>
      </td>
    </tr>`;
  }

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-takes-list': EvenfieldTakesList;
  }
}
