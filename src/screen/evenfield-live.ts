import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { type Aim, EVEN } from '../engine/aim.ts';
import type { LiveReading } from '../engine/live/live-reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { LIVE_UNITS_A_CELL, type LiveMap, liveMap } from '../plots/live-map.ts';
import { offersCameras } from '../sources/live-camera.ts';
import { liveStyles } from './evenfield-live.styles.ts';
import './evenfield-sign.ts';
import { hintStyles } from './hint.styles.ts';
import { LiveView } from './live-view.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import { TOLD_WORDS } from './words/follow-words.ts';
import {
  driftWords,
  FEED_AIM,
  FEED_ONLY_SEEN,
  FEED_TRUST,
  heldWords,
  LIVE_TROUBLE_WORDS,
  liveColour,
  liveSentence,
  liveWhere,
  paceWords,
  settledWords,
} from './words/live-words.ts';

/**
 * The light as a camera sees it now, followed while it is moved.
 * @event evenfield-picked - {File[]} the picture that was held, to be read as a take
 */
@customElement('evenfield-live')
export class EvenfieldLive extends LitElement {
  static override styles = [type, sentenceStyles, hintStyles, liveStyles];

  @query('canvas') private canvas!: HTMLCanvasElement | null;

  @property({ attribute: false }) tolerance!: Tolerance;
  /** What the background is to become; a feed tells its evenness alone. */
  @property({ attribute: false }) aim: Aim = EVEN;
  @property({ attribute: false }) view = new LiveView();

  private map: LiveMap | null = null;
  private readonly changed = () => this.requestUpdate();

  override connectedCallback(): void {
    super.connectedCallback();
    this.view.addEventListener('change', this.changed);
  }

  override disconnectedCallback(): void {
    this.view.removeEventListener('change', this.changed);
    this.view.stop();
    super.disconnectedCallback();
  }

  override willUpdate(): void {
    this.toggleAttribute('wide', this.view.camera !== null || this.view.trouble !== null);
    this.view.judgeBy(this.tolerance);
    const reading = this.view.step?.reading;
    if (reading) this.style.setProperty('--ratio', `${reading.columns} / ${reading.rows}`);
    this.map = reading ? liveMap(reading.columns, reading.rows, reading.falloff, this.tolerance) : null;
  }

  override render() {
    const { camera, trouble, isOpening } = this.view;
    if (camera !== null) return this.looking();
    return html`<p class="line">
        <button ?disabled=${isOpening || !offersCameras()} @click=${this.look}>Look through a camera…</button>
        <span class=${offersCameras() ? 'quiet hint' : 'quiet'}>${offersCameras() ? 'Its picture is measured while you move the light; nothing of it is kept but what you hold as a take.' : LIVE_TROUBLE_WORDS['not-offered']}</span>
      </p>
      ${trouble === null ? nothing : html`<p role="alert">${LIVE_TROUBLE_WORDS[trouble]}</p>`}`;
  }

  private looking() {
    const { camera, cameras, step, isHeard } = this.view;
    const names = Object.fromEntries(cameras.map(({ id, name }, i) => [id, name || `camera ${i + 1}`]));
    const which =
      cameras.length > 1
        ? wordChoice('Which camera', camera!.id, names, (id) => this.view.look(id))
        : html`<span class="name">“${camera!.name}”</span>`;
    return html`<section aria-label="Live">
      <h2>Live</h2>
      <p class="line">
        <span>Looking through ${which}; when it becomes even is
          ${wordChoice('How it is told that the light is even', isHeard ? 'heard' : 'seen', TOLD_WORDS, (chosen) => this.view.hear(chosen === 'heard'))}.</span>
        <button @click=${this.hold}>Hold as a take</button>
        <button @click=${this.stopLooking}>Stop looking</button>
      </p>
      ${step === null ? html`<p>Waiting for the first picture…</p>` : this.seen(step.reading)}
      <p class="small quiet">${heldWords(camera!)} ${FEED_TRUST} ${'next' in camera!.pictures ? FEED_ONLY_SEEN : ''} ${this.aim.kind === 'even' ? '' : FEED_AIM} ${step === null ? '' : `${paceWords(step)}.`}</p>
    </section>`;
  }

  private seen(reading: LiveReading) {
    const { columns, rows } = reading;
    const { contourPath, tolerancePath, stepEv, picture } = this.map!;
    const [width, height] = [columns * LIVE_UNITS_A_CELL, rows * LIVE_UNITS_A_CELL];
    return html`<div class="seen">
      <figure>
        <canvas aria-hidden="true" width=${columns} height=${rows}></canvas>
        <svg role="img" aria-label="Falloff now, with contours" viewBox="0 0 ${width} ${height}" preserveAspectRatio="none">
          ${svg`<path class="contour" d=${contourPath} /><path class="tolerance" d=${tolerancePath} />`}
        </svg>
      </figure>
      <div>
        <p class="figure">${liveSentence(reading, this.tolerance)}</p>
        <p>${settledWords(reading)}</p>
        <p>${liveWhere(reading)}</p>
        <p>${liveColour(reading, this.tolerance)}</p>
        ${driftWords(reading).map((words) => html`<p class="drift">${words}</p>`)}
        <p class="small quiet">A line every ${stepEv.toFixed(1)} stop, the limit boldest; differences of light ${picture.strengthened === 1 ? 'as they are' : `${Number(picture.strengthened.toPrecision(2))} times as strong`}.</p>
        <evenfield-sign .reading=${reading} .tolerance=${this.tolerance} name="live"></evenfield-sign>
      </div>
    </div>`;
  }

  override updated(): void {
    if (this.map === null || this.canvas === null) return;
    const { columns, rows, rgba } = this.map.picture;
    this.canvas.getContext('2d')?.putImageData(new ImageData(rgba, columns, rows), 0, 0);
  }

  /** The button that was pressed goes with what it was pressed for. */
  private async toFirstButton(): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector('button')?.focus({ preventScroll: true });
  }

  private readonly stopLooking = () => {
    this.view.stop();
    void this.toFirstButton();
  };

  private readonly look = async () => {
    await this.view.look();
    await this.toFirstButton();
    this.scrollIntoView({ block: 'start' }); // what the lights are moved by is to be seen without scrolling
  };

  private readonly hold = async () => {
    const file = await this.view.hold();
    if (file === null) return;
    this.dispatchEvent(
      new CustomEvent('evenfield-picked', { detail: [file], bubbles: true, composed: true }),
    );
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-live': EvenfieldLive;
  }
}
