import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { type } from './paper.ts';
import { printAlone } from './print-alone.ts';
import { JOB_WITHOUT_WORDS } from './words/job-words.ts';

/**
 * What is taken away of a take: the reading, its cells, the record; and the whole job.
 * @event evenfield-save - when it is wanted
 * @event evenfield-save-job - when the whole job is wanted as one file
 * @event evenfield-save-cells - when its cells are wanted as a table
 */
@customElement('evenfield-save')
export class EvenfieldSave extends LitElement {
  static override styles = [
    type,
    css`
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem;
        margin-bottom: 0.5rem;
      }
    `,
  ];

  override render() {
    return html`<h2>Save and print</h2>
      <div class="buttons">
        <button @click=${() => this.tell('evenfield-save')}>Save the reading</button>
        <button @click=${() => this.tell('evenfield-save-cells')}>Save the cells</button>
        <button @click=${() => printAlone(this)}>Print the record…</button>
        <button @click=${() => this.tell('evenfield-save-job')}>Save the whole job</button>
      </div>
      <p class="small quiet">The reading holds every figure of this page, as JSON; its cells by themselves are a table, as CSV. The record is one page, on paper or as PDF: maps, figures, the set and the moves, to build it again from. ${JOB_WITHOUT_WORDS}</p>
      <slot></slot>`;
  }

  private tell(name: string): void {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-save': EvenfieldSave;
  }
}
