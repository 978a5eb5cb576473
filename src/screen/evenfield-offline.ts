import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { OfflineCopy } from './offline-copy.ts';
import { paper, type } from './paper.ts';
import { OFFLINE_WORDS } from './words/offline-words.ts';

/** The foot of the tool's own page: whether it can be used without a network, and a newer version if there is one. */
@customElement('evenfield-offline')
export class EvenfieldOffline extends LitElement {
  static override styles = [
    paper,
    type,
    css`
      p {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.5rem 1rem;
        margin: 0;
        min-height: 1.5em;
      }
    `,
  ];

  @property({ attribute: false }) copy: OfflineCopy | null = null;

  private readonly changed = () => this.requestUpdate();

  override willUpdate(before: PropertyValues<this>): void {
    if (!before.has('copy')) return;
    before.get('copy')?.removeEventListener('change', this.changed);
    this.copy?.addEventListener('change', this.changed);
  }

  override render() {
    const state = this.copy?.state ?? 'unknown';
    const isNewer = state.startsWith('newer');
    return html`<p class="small quiet">
      <span>${OFFLINE_WORDS[state]}</span>
      ${isNewer ? html`<button @click=${() => this.copy?.takeNewer()}>Load the newer version</button>` : nothing}
    </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-offline': EvenfieldOffline;
  }
}
