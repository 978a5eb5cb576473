import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type Finding, type FrameRectangle, WHOLE_FRAME } from '../engine/reading.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { findingAside, findingSays } from './words/finding-words.ts';
import type { LengthUnit } from './words/length-words.ts';

/**
 * What was found, in sentences, strongest first. Those that have a place light it up while pointed at or focused.
 * @slot - the way to settle what one frame can't tell: right beneath the first such finding, else below them all
 * @event evenfield-place - {FramePoint | null} the place to light up
 * @event evenfield-look - when a finding was pressed, and its place is to be brought into view
 */
@customElement('evenfield-findings')
export class EvenfieldFindings extends OwnTaskElement {
  static override styles = [
    type,
    css`
      ul {
        padding: 0;
        list-style: none;
      }
      li {
        margin-bottom: 0.75rem;
      }
      li > div,
      li ::slotted(*) {
        margin-inline-start: calc(0.75rem + 2px); /* in line with those that have a place */
      }
      button {
        width: 100%;
        padding: 0 0 0 0.75rem;
        border: 0;
        border-inline-start: 2px dotted var(--rule);
      }
      button:hover,
      button:focus-visible {
        background: none;
        color: inherit;
        border-inline-start: 2px solid var(--ink);
      }
      .aside {
        display: block;
      }
    `,
  ];

  private pointed: Finding['at'] = null;
  private focused: Finding['at'] = null; // stays lit when the page scrolls away under the pointer

  @property({ attribute: false }) findings: readonly Finding[] = [];
  /** The part of the frame that was read. */
  @property({ attribute: false }) region: FrameRectangle = WHOLE_FRAME;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const doubt = this.findings.find(({ kind }) => kind === 'cannot-tell');
    return html`<h2>Findings</h2>
      ${
        this.findings.length === 0
          ? html`<p>Nothing that stands out.</p>`
          : html`<ul>
            ${this.findings.map((finding) => html`<li>${this.line(finding)}${finding === doubt ? html`<slot></slot>` : nothing}</li>`)}
          </ul>`
      }
      ${doubt === undefined ? html`<slot></slot>` : nothing}`;
  }

  private line(finding: Finding) {
    const aside = findingAside(finding, this.region);
    const sentence = html`${findingSays(finding, this.unit)}${aside === '' ? nothing : html` <span class="aside small quiet">${aside}</span>`}`;
    if (finding.at === null) return html`<div>${sentence}</div>`;
    const point = (by: 'pointed' | 'focused', at: Finding['at']) => {
      this[by] = at;
      this.tell('evenfield-place', this.pointed ?? this.focused);
    };
    return html`<button
      @pointerenter=${() => point('pointed', finding.at)}
      @pointerleave=${() => point('pointed', null)}
      @focus=${() => point('focused', finding.at)}
      @blur=${() => point('focused', null)}
      @click=${() => this.tell('evenfield-look', null)}
    >
      ${sentence}
    </button>`;
  }

  private tell(name: string, detail: Finding['at']): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-findings': EvenfieldFindings;
  }
}
