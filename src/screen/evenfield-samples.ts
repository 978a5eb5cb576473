import { css, html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { type SampleFrame, sampleList } from '../sources/sample-list.ts';
import { type } from './paper.ts';
import { samplesAddress } from './samples-address.ts';

/**
 * Sample frames as small pictures with their stories. Empty where the bench names no list of them.
 * @event evenfield-sample - {SampleFrame} the sample that was chosen
 */
@customElement('evenfield-samples')
export class EvenfieldSamples extends LitElement {
  static override styles = [
    type,
    css`
      ul {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(9.5rem, 1fr));
        gap: 1.25rem;
        padding: 0;
        list-style: none;
      }
      @container (min-width: 75rem) {
        ul {
          grid-template-columns: repeat(5, 1fr); /* two whole rows */
        }
      }
      button {
        width: 100%;
        height: 100%;
        padding: 0;
        border: 0;
        display: flex;
        flex-direction: column;
      }
      button:hover {
        background: none;
        color: inherit;
      }
      button:hover .title {
        text-decoration: underline;
      }
      img {
        display: block;
        width: 100%;
        aspect-ratio: 3 / 2;
        object-fit: cover;
        margin-bottom: 0.375rem;
      }
      .title {
        font-weight: 600;
      }
    `,
  ];

  @state() private samples: readonly SampleFrame[] = [];

  override connectedCallback(): void {
    super.connectedCallback();
    const address = samplesAddress(this);
    if (address === null) return;
    sampleList(address).then(
      (samples) => {
        this.samples = samples;
      },
      () => {
        this.samples = []; // no samples is no failure: frames can be dropped all the same
      },
    );
  }

  override render() {
    if (this.samples.length === 0) return nothing;
    return html`<h2>Samples to try</h2>
      <ul>
        ${this.samples.map(
          (sample) => html`<li>
            <button @click=${() => this.choose(sample)}>
              <img src=${sample.small} alt="" loading="lazy" decoding="async" />
              <span class="title">${sample.title}</span>
              <span class="small quiet">${sample.story}</span>
            </button>
          </li>`,
        )}
      </ul>`;
  }

  private choose(sample: SampleFrame): void {
    this.dispatchEvent(
      new CustomEvent('evenfield-sample', { detail: sample, bubbles: true, composed: true }),
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-samples': EvenfieldSamples;
  }
}
