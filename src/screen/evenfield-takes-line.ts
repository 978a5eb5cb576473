import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Tolerance } from '../engine/tolerance.ts';
import { type TakeMark, type TakesLine, takesLine } from '../plots/takes-line.ts';
import { type HeldTake, takeNumber } from '../takes/take.ts';
import { OwnWidth } from './own-width.ts';
import { type } from './paper.ts';
import { AXIS_WORDS, limitWords, markFigure, takesSummary, tickFigure } from './words/take-words.ts';

const HEIGHT = 240;
const WIDEST = 760;
/** From this stride on, every mark has room for its figure. */
const ROOM_FOR_FIGURE = 44;
const FIGURE_HEIGHT = 16;

/**
 * The takes as one line over the band of the tolerance, what was foretold as hollow marks beside what came.
 * @event evenfield-show-take - {string} the id of the take whose mark was pressed
 */
@customElement('evenfield-takes-line')
export class EvenfieldTakesLine extends LitElement {
  static override styles = [
    type,
    css`
      svg {
        display: block;
        margin-bottom: 0.5rem;
      }
      path,
      line,
      circle {
        fill: none;
        stroke: currentColor;
      }
      .band {
        stroke: none;
        fill: currentColor;
        opacity: 0.12;
      }
      .limit,
      .line {
        stroke-width: 2;
      }
      .tick {
        opacity: 0.3;
      }
      .mark {
        fill: currentColor;
      }
      .foretold {
        stroke-width: 1.25;
      }
      .hollow {
        stroke-width: 1.5;
        fill: var(--ground);
      }
      .press {
        fill: transparent;
        stroke: none;
        cursor: pointer;
      }
      text {
        fill: currentColor;
        font-size: 14px;
      }
      .halo {
        paint-order: stroke;
        stroke: var(--ground);
        stroke-width: 4;
      }
      .shown {
        font-weight: 700;
      }
      @media (forced-colors: active) {
        .hollow {
          fill: Canvas;
        }
        .halo {
          stroke: Canvas;
        }
      }
    `,
  ];

  private readonly width = new OwnWidth(this, WIDEST);

  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() shown = '';

  override render() {
    if (this.width.px === 0) return nothing;
    const line = takesLine(this.takes, this.tolerance, { width: this.width.px, height: HEIGHT });
    return html`<svg
      role="img"
      aria-labelledby="name"
      aria-describedby="says"
      width=${line.width}
      height=${line.height}
      viewBox="0 0 ${line.width} ${line.height}"
    >
      <title id="name">The takes, from first to newest</title>
      <desc id="says">${takesSummary(this.takes, this.tolerance)}</desc>
      ${this.ground(line)}
      <path class="line" d=${line.path} />
      ${line.predictions.map((mark, i) => (mark === null ? nothing : this.foretold(mark, i, line)))}
      ${line.marks.map((mark, i) => this.mark(mark, i, line))}
    </svg>
      ${line.predictions.some((mark) => mark !== null) ? html`<p class="small quiet">Hollow: what was foretold, with its ±.</p>` : nothing}`;
  }

  private ground({ left, right, foot, limitAt, ticks, tickDigits }: TakesLine) {
    const digits = this.tolerance.measure === 'range' ? Math.max(1, tickDigits) : 0;
    return svg`<rect class="band" x=${left} y=${limitAt} width=${right - left} height=${foot - limitAt} />
      ${ticks.map(
        ({ value, at }) => svg`<line class="tick" x1=${left} x2=${right} y1=${at} y2=${at} />
          <text x=${left - 8} y=${at} dy="0.35em" text-anchor="end">${tickFigure(value, this.tolerance, digits)}</text>`,
      )}
      <line class="limit" x1=${left} x2=${right} y1=${limitAt} y2=${limitAt} />
      <text x=${right + 8} y=${limitAt} dy="0.35em">${limitWords(this.tolerance)}</text>
      <text x="0" y="14">${AXIS_WORDS[this.tolerance.measure]}</text>`;
  }

  private mark(mark: TakeMark, i: number, { foot, stride, marks }: TakesLine) {
    const take = this.takes[i]!;
    const [x, y] = mark.at;
    const isShown = take.id === this.shown;
    const hasRoom = stride >= ROOM_FOR_FIGURE;
    // a line that goes up from here would run through a figure above it
    const below = 2 * y - mark.top;
    const isBelow = (marks[i + 1]?.at[1] ?? y) < y && below + FIGURE_HEIGHT < foot;
    return svg`<path d=${mark.barPath} />
      <circle class="mark" cx=${x} cy=${y} r=${isShown ? 6 : 4} />
      ${hasRoom || isShown ? svg`<text class=${isShown ? 'halo shown' : 'halo'} x=${x + 10} y=${isBelow ? below : mark.top} dy=${isBelow ? '1em' : '-0.2em'}>${markFigure(take.reading.falloff, this.tolerance)}</text>` : nothing}
      ${hasRoom || isShown ? svg`<text class=${isShown ? 'shown' : ''} x=${x} y=${foot + 20} text-anchor="middle">${takeNumber(take)}</text>` : nothing}
      <rect class="press" x=${x - stride / 2} y="0" width=${stride} height=${HEIGHT} @click=${() => this.show(take.id)} />`;
  }

  /** Beside the mark of what came, so that neither hides the other. */
  private foretold({ at: [x, y], barPath }: TakeMark, i: number, { foot, stride }: TakesLine) {
    const isToCome = i === this.takes.length;
    return svg`<g transform=${isToCome ? '' : `translate(${-Math.min(12, stride / 4)} 0)`}>
        <path class="foretold" d=${barPath} />
        <circle class="hollow" cx=${x} cy=${y} r="5" />
      </g>
      ${isToCome ? svg`<text x=${x} y=${foot + 20} text-anchor="middle">next</text>` : nothing}`;
  }

  private show(id: string): void {
    this.dispatchEvent(new CustomEvent('evenfield-show-take', { detail: id, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-takes-line': EvenfieldTakesLine;
  }
}
