import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Finding } from '../engine/reading.ts';
import { type } from './paper.ts';
import { sureness } from './words/finding-words.ts';

/**
 * What was found, in sentences, strongest first.
 * @event evenfield-place - {FramePoint | null} the place of the finding that is pointed at
 */
@customElement('evenfield-findings')
export class EvenfieldFindings extends LitElement {
  static override styles = [
    type,
    css`
      ul {
        padding: 0;
        list-style: none;
      }
      li {
        margin-bottom: 0.5rem;
      }
      li[tabindex] {
        text-decoration: underline dotted;
        text-underline-offset: 0.25em;
      }
    `,
  ];

  @property({ attribute: false }) findings: readonly Finding[] = [];

  override render() {
    return html`<h2>Findings</h2>
      ${
        this.findings.length === 0
          ? html`<p>Nothing that stands out.</p>`
          : html`<ul>
            ${this.findings.map((finding) => this.line(finding))}
          </ul>`
      }`;
  }

  private line(finding: Finding) {
    const sentence = html`${finding.says} <span class="small quiet">${sureness(finding.confidence)}</span>`;
    if (finding.at === null) return html`<li>${sentence}</li>`;
    const point = () => this.tell(finding);
    const leave = () => this.tell(null);
    return html`<li tabindex="0" @pointerenter=${point} @focus=${point} @pointerleave=${leave} @blur=${leave}>
      ${sentence}
    </li>`;
  }

  private tell(finding: Finding | null): void {
    const detail = finding?.at ?? null;
    this.dispatchEvent(new CustomEvent('evenfield-place', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-findings': EvenfieldFindings;
  }
}
