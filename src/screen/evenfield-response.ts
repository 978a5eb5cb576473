import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { EngineClient } from '../../workers/engine-client.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import { responsePlot } from '../plots/response-plot.ts';
import type { FullTake } from '../takes/take.ts';
import './evenfield-frame-picker.ts';
import './evenfield-response-plot.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { ResponseDesk, type ShownResponse } from './response-desk.ts';
import {
  BRACKET_OFFER,
  bracketProgressWords,
  cameraWords,
  responseWords,
  STEPS_LABEL,
  useWords,
} from './words/response-words.ts';

/**
 * The camera's response: recovered from a bracket, drawn, kept on this machine, and gone by where that is wished.
 * @event evenfield-read-by - {CameraResponse | null} when the newest take is to be read by another one, or by none
 */
@customElement('evenfield-response')
export class EvenfieldResponse extends OwnTaskElement {
  static override styles = [
    type,
    css`
      .both {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 0.5rem 2.5rem;
      }
      @container (min-width: 55rem) {
        .both {
          grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
        }
      }
      .offer,
      .says {
        max-width: 46rem;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        margin-bottom: 0.75rem;
      }
      label.steps {
        display: block;
        margin-bottom: 0.75rem;
      }
      .steps input {
        width: 12rem;
        max-width: 100%;
        min-height: 1.75rem;
        border: 0;
        border-bottom: 1px solid var(--ink);
        background: none;
        color: inherit;
        font: inherit;
      }
      .use {
        display: flex;
        align-items: center;
        gap: 0.75rem;
        min-height: 2.75rem;
        overflow-wrap: anywhere;
      }
      .use input {
        flex: none;
        width: 1.25rem;
        height: 1.25rem;
        margin: 0;
        accent-color: var(--ink);
      }
      progress {
        flex: 1 1 10rem;
        max-width: 24rem;
        height: 0.5rem;
        accent-color: var(--ink);
      }
      .trouble {
        max-width: 46rem;
        padding-inline-start: 1rem;
        border-inline-start: 4px solid var(--ink);
        overflow-wrap: anywhere;
      }
    `,
  ];

  private readonly desk = new ResponseDesk(
    () => new EngineClient(),
    () => this.requestUpdate(),
  );

  @state() private steps = '';

  @property({ attribute: false }) take!: FullTake;
  /** Only the newest take can be read again. */
  @property({ type: Boolean }) isNewest = false;

  override disconnectedCallback(): void {
    this.desk.cancel();
    super.disconnectedCallback();
  }

  override render() {
    const { progress, trouble } = this.desk;
    const shown = this.desk.shownFor(this.camera);
    return html`<h2>The camera’s response</h2>
      <div class="both"><div>
      <p class="offer">${BRACKET_OFFER}</p>
      <label class="steps"
        ><span class="small quiet">${STEPS_LABEL}</span><br /><input
          inputmode="text"
          autocomplete="off"
          .value=${this.steps}
          @change=${(event: Event) => {
            this.steps = (event.target as HTMLInputElement).value;
          }}
      /></label>
      <div class="row">
        <evenfield-frame-picker
          label="Choose the bracket’s frames…"
          @evenfield-picked=${(event: CustomEvent<File[]>) => {
            event.stopPropagation(); // elsewhere a picked frame is the next take
            void this.recover(event.detail);
          }}
        ></evenfield-frame-picker>
        ${
          progress === null
            ? nothing
            : html`<progress aria-label="Recovering the response" max="1" value=${progress.phase === 'fitting' ? 0.95 : 0.9 * progress.fraction}></progress>
              <button @click=${() => this.desk.cancel()}>Cancel recovering</button>`
        }
      </div>
      <p class="small quiet" role="status">${progress === null ? nothing : `${bracketProgressWords(progress.phase, progress.fraction, progress.frames)}…`}</p>
      ${trouble === null ? nothing : html`<div role="alert"><p class="trouble">${trouble}</p></div>`}
      ${shown === null ? nothing : this.shown(shown)}
      </div>
      ${shown === null ? nothing : html`<evenfield-response-plot .response=${shown.response}></evenfield-response-plot>`}
      </div>`;
  }

  private shown({ response, isUsed }: ShownResponse) {
    const { firstStopBySrgb } = responsePlot(response, { width: 300, height: 200 });
    const name = cameraWords(response.camera);
    const isNamed = response.camera !== null; // else a frame to come can't be told to be of that camera
    const other = response.camera === this.camera ? nothing : ` This take is of ${cameraWords(this.camera)}.`;
    return html`<p class="says" role="status"><strong>${name}.</strong> ${responseWords(response, firstStopBySrgb)}${other}</p>
      <label class="use"
        ><input
          type="checkbox"
          .checked=${isNamed ? isUsed : this.take.report.readBy.response !== null}
          ?disabled=${!isNamed && !this.isNewest}
          @change=${(event: Event) => this.use(response, (event.target as HTMLInputElement).checked)}
        /><span>${useWords(response.camera)}</span></label
      >
      <div class="row">
        <button @click=${() => this.forget(response, isUsed)}>Forget this response</button>
        <span class="small quiet">It is kept on this machine alone.</span>
      </div>`;
  }

  private get camera(): string | null {
    return this.take.report.readBy.camera;
  }

  private async recover(files: readonly File[]): Promise<void> {
    const recovered = await this.desk.recover(files, this.steps);
    if (recovered?.isUsed) this.readBy(recovered.response, recovered.response);
  }

  private use(response: CameraResponse, isUsed: boolean): void {
    this.desk.use(response, isUsed);
    this.readBy(response, isUsed ? response : null);
  }

  private forget(response: CameraResponse, wasUsed: boolean): void {
    this.desk.forget(response.camera);
    if (wasUsed) this.readBy(response, null);
    this.renderRoot.querySelector<HTMLElement>('evenfield-frame-picker')?.focus(); // the button goes with it
  }

  /** The take that is shown, where it is of that camera. */
  private readBy(of: CameraResponse, detail: CameraResponse | null): void {
    if (!this.isNewest || of.camera !== this.camera) return;
    this.dispatchEvent(new CustomEvent('evenfield-read-by', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-response': EvenfieldResponse;
  }
}
