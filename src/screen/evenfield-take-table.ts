import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type SheetColumn, type SheetRow, sheetRows, sorted } from '../plots/sheet-rows.ts';
import { exposedTake } from '../takes/exposed-take.ts';
import { type HeldTake, takeNumber } from '../takes/take.ts';
import { takeTableStyles } from './evenfield-take-table.styles.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import { dashWords, SHEET_COLUMN_WORDS, SHEET_LEGEND, sheetFigure } from './words/sheet-words.ts';
import { takeName } from './words/take-words.ts';

const COLUMNS = Object.keys(SHEET_COLUMN_WORDS) as SheetColumn[];
const BRIGHTEST = 'brightest';

/** The takes as a table of sheets or lights to choose by: each column sorts it. */
@customElement('evenfield-take-table')
export class EvenfieldTakeTable extends OwnTaskElement {
  static override styles = [type, sentenceStyles, takeTableStyles];

  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @state() private isOpen = false;
  @state() private by: SheetColumn = 'take';
  @state() private isDown = false;
  /** Id of the take that light lost is told against; `null` for the one with most light. */
  @state() private againstId: string | null = null;

  override render() {
    if (this.takes.length < 2) return nothing;
    return html`<details
      @toggle=${(event: Event) => {
        this.isOpen = (event.target as HTMLDetailsElement).open;
      }}
    >
      <summary>Choose a sheet or a light by its figures</summary>
      ${this.isOpen ? this.table() : nothing}
    </details>`;
  }

  private table() {
    const { takes } = this;
    const againstIndex = takes.findIndex(({ id }) => id === this.againstId);
    const rows = sheetRows(takes.map(exposedTake), againstIndex < 0 ? null : againstIndex);
    const names = {
      [BRIGHTEST]: 'the take with most light',
      ...Object.fromEntries(takes.map((take) => [take.id, `Take ${takeNumber(take)}, ${takeName(take)}`])),
    };
    const dashes = dashWords(rows);
    return html`<p>Each take is a sheet, or a light, by the note beside it. Light lost is told against
        ${wordChoice(
          'The take that light lost is told against',
          againstIndex < 0 ? BRIGHTEST : this.againstId!,
          names,
          (id) => {
            this.againstId = id === BRIGHTEST ? null : id;
          },
        )}.
      </p>
      <div class="fold"><table role="table">
        <thead role="rowgroup"><tr role="row">${COLUMNS.map((column) => this.heading(column))}</tr></thead>
        <tbody role="rowgroup">${sorted(rows, this.by, this.isDown).map((row) => this.row(row))}</tbody>
      </table></div>
      ${dashes === null ? nothing : html`<p class="small notes">${dashes}</p>`}
      <p class="small quiet notes">${SHEET_LEGEND}</p>`;
  }

  private heading(column: SheetColumn) {
    const [name, unit] = SHEET_COLUMN_WORDS[column];
    const isBy = column === this.by;
    const way = this.isDown ? 'descending' : 'ascending';
    return html`<th scope="col" role="columnheader" aria-sort=${isBy ? way : nothing}>
      <button @click=${() => this.sortBy(column)}>
        ${name}${unit === '' ? nothing : html`<span class="small quiet"> ${unit}</span>`}<span aria-hidden="true">${isBy ? (this.isDown ? ' ↓' : ' ↑') : nothing}</span>
      </button>
    </th>`;
  }

  private row(row: SheetRow) {
    const take = this.takes[row.index]!;
    const file = `Take ${takeNumber(take)}, ${takeName(take)}`;
    return html`<tr role="row">
      <th scope="row" role="rowheader">
        ${take.note === '' ? file : html`${take.note}<span class="small quiet name">${file}</span>`}
      </th>
      ${COLUMNS.slice(1).map((column) => {
        const [name, unit] = SHEET_COLUMN_WORDS[column];
        return html`<td role="cell" data-name=${`${name}, ${unit}`}>${sheetFigure(row, column)}</td>`;
      })}
    </tr>`;
  }

  private sortBy(column: SheetColumn): void {
    this.isDown = column === this.by && !this.isDown;
    this.by = column;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-take-table': EvenfieldTakeTable;
  }
}
