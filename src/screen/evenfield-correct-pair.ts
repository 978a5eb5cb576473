import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Treatment } from '../engine/correct/correct-light.ts';
import type { Brush } from '../engine/correct/matte/brush.ts';
import type { CorrectionPreview } from '../engine/preview-correction.ts';
import type { FramePoint } from '../engine/reading.ts';
import { correctPairStyles } from './evenfield-correct-pair.styles.ts';
import './evenfield-correct-picture.ts';
import './evenfield-correct-sections.ts';
import type { BrushChoice } from './evenfield-correct-picture.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import {
  BRUSH_WORDS,
  backgroundWords,
  clippedWords,
  displacementSentence,
  RADIUS_WORDS,
} from './words/correct-words.ts';
import type { LengthUnit } from './words/length-words.ts';

/** How far beside it a bending glass shows the background: the share of the frame's width that is spoken of. */
const DISPLACEMENT = 0.05;

/**
 * A frame as shot and as it would be corrected, side by side, with their sections and the background's figures.
 * @event evenfield-stroke - {Stroke} what was painted
 * @event evenfield-stroke-back - when the last stroke is to be taken back
 */
@customElement('evenfield-correct-pair')
export class EvenfieldCorrectPair extends LitElement {
  static override styles = [type, sentenceStyles, correctPairStyles];

  @state() private spot: FramePoint = { x: 0.5, y: 0.15 };
  @state() private makes: BrushChoice['makes'] = 'subject';
  @state() private radius: keyof typeof RADIUS_WORDS = '0.025';

  @property({ attribute: false }) preview!: CorrectionPreview;
  @property({ attribute: false }) treat: Treatment = 'everything';
  @property({ attribute: false }) strokes: Brush = [];
  /** Pixels of the file itself. */
  @property({ type: Number }) filePixels = 1;
  @property({ attribute: false }) frameWidthMm: number | null = null;
  @property() unit: LengthUnit = 'cm';

  override render() {
    const { preview } = this;
    const { widthPx, heightPx, clipped, clippedBefore, clippedByGains, background } = preview;
    const isBackgroundOnly = this.treat === 'background-only';
    const brush = isBackgroundOnly ? { makes: this.makes, radius: Number(this.radius) } : null;
    const lost = clippedWords(clippedBefore, clippedByGains, this.filePixels);
    const size = { widthPx, heightPx };
    return html`<div class="pair">
        <figure>
          <figcaption><b>As shot.</b> ${backgroundWords(background?.before ?? null)}</figcaption>
          <evenfield-correct-picture
            name="As shot"
            .picture=${preview.before}
            .widthPx=${size.widthPx}
            .heightPx=${size.heightPx}
            .spot=${this.spot}
            .clipped=${clipped}
            .backgroundAt=${isBackgroundOnly ? preview.backgroundAt : null}
            .brush=${brush}
            @evenfield-look-at=${this.look}
          ></evenfield-correct-picture>
        </figure>
        <figure>
          <figcaption><b>Corrected.</b> ${backgroundWords(background?.after ?? null)}</figcaption>
          <evenfield-correct-picture
            name="Corrected"
            .picture=${preview.after}
            .widthPx=${size.widthPx}
            .heightPx=${size.heightPx}
            .spot=${this.spot}
            .clipped=${clipped}
            isCorrected
            @evenfield-look-at=${this.look}
          ></evenfield-correct-picture>
        </figure>
      </div>
      ${lost === null ? nothing : html`<p class="small lost">${lost}</p>`}
      ${this.treat === 'everything' ? this.displacement() : nothing} ${isBackgroundOnly ? this.painting() : nothing}
      <evenfield-correct-sections .preview=${preview} .spot=${this.spot}></evenfield-correct-sections>`;
  }

  private displacement() {
    const found = this.preview.displaced.find(({ frameWidths }) => frameWidths === DISPLACEMENT);
    if (found === undefined) return nothing;
    return html`<p class="straight">${displacementSentence(found.frameWidths, found.ev, this.frameWidthMm, this.unit)}</p>`;
  }

  private painting() {
    return html`<div class="painting">
      <p>
        What is hatched stays as it was shot. Where that is wrong, paint over “As shot”: the brush
        ${wordChoice('What the brush does', this.makes, BRUSH_WORDS, (makes) => {
          this.makes = makes;
        })}
        and is
        ${wordChoice('Width of the brush', this.radius, RADIUS_WORDS, (radius) => {
          this.radius = radius;
        })}
        wide.
      </p>
      ${
        this.strokes.length === 0
          ? nothing
          : html`<button @click=${() => this.dispatchEvent(new CustomEvent('evenfield-stroke-back', { bubbles: true, composed: true }))}>Take the last stroke back</button>`
      }
    </div>`;
  }

  private look(event: CustomEvent<FramePoint>): void {
    this.spot = event.detail;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-correct-pair': EvenfieldCorrectPair;
  }
}
