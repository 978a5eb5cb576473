import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { Setup } from '../engine/setup.ts';
import type { HeldSecondFrame } from '../takes/second-frames.ts';
import './evenfield-frame-picker.ts';
import { secondFrameStyles } from './evenfield-second-frame.styles.ts';
import { type } from './paper.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import type { LengthUnit } from './words/length-words.ts';
import {
  hintWords,
  KIND_WORDS,
  offerWords,
  parseSlide,
  parseStops,
  type SecondFrameKind,
  SIDE_WORDS,
  type SlideSide,
  slideFigure,
  slideSlipWords,
  slidTo,
  stopsFigure,
  stopsSlipWords,
  stopsUnit,
  usedWords,
} from './words/second-frame-words.ts';

/** The files of a second frame, and what was changed before they were shot. */
export interface ChosenSecondFrame {
  readonly files: readonly File[];
  readonly role: SecondFrameRole;
}

/** One figure of the sentence: what stands there, what a text makes of it (`null`: nothing), what is said of a slip. */
interface TypedFigure {
  readonly shown: string;
  readonly parse: (text: string) => number | null;
  readonly keep: (figure: number) => void;
  readonly slip: (text: string) => string;
}

/**
 * A second frame of the same set, asked for in a sentence whose words are controls, and those that are in use.
 * @event evenfield-second-frame - {ChosenSecondFrame} when files were chosen, or dropped here
 * @event evenfield-leave-out - {SecondFrameKind} when one in use is to be done without
 * @event evenfield-slip - {string | null} what was typed and not understood, in a sentence; `null` once it is
 */
@customElement('evenfield-second-frame')
export class EvenfieldSecondFrame extends LitElement {
  static override styles = [type, sentenceStyles, secondFrameStyles];

  /** `null` until one was chosen: then the one that settles what is in doubt. */
  @state() private chosenKind: SecondFrameKind | null = null;
  @state() private side: SlideSide = 'right';
  @state() private frameWidths = 0.33;
  @state() private stops = 2;

  @property({ attribute: false }) used: readonly HeldSecondFrame[] = [];
  /** As it stands at the take that the frame goes with. */
  @property({ attribute: false }) setup!: Setup;
  @property() unit: LengthUnit = 'cm';
  /** The one that would settle what this take can't tell; `null` where nothing is in doubt. */
  @property({ attribute: false }) settling: SecondFrameKind | null = null;
  /** Whether one can still be added: only the newest take's light may still stand. */
  @property({ type: Boolean }) isNewest = false;
  /** The name of the file that is being read. */
  @property({ attribute: false }) reading: string | null = null;
  /** Whether files are held over this part of the page. */
  @property({ type: Boolean, reflect: true }) over = false;

  constructor() {
    super();
    this.addEventListener('dragover', this.hold);
    this.addEventListener('dragleave', this.letGo);
    this.addEventListener('drop', this.dropped);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('settling') && this.settling !== null) this.chosenKind = null; // another doubt, another frame
  }

  private get kind(): SecondFrameKind {
    return this.chosenKind ?? this.settling ?? 'lamp-off';
  }

  override render() {
    return html`${this.isNewest ? this.offer() : nothing}
      <div aria-live="polite">${this.inUse()}</div>`;
  }

  private offer() {
    return html`<p>
        ${offerWords(this.settling !== null, this.used.length > 0)}
        ${wordChoice('What the second frame is shot with', this.kind, KIND_WORDS, (kind) => {
          this.chosenKind = kind;
        })}${this.amount()}.
      </p>
      <p class="small quiet hint">${hintWords(this.kind, this.setup.light)}</p>
      <div class="choose">
        <evenfield-frame-picker
          label="Choose the second frame…"
          @evenfield-picked=${(event: CustomEvent<File[]>) => {
            event.stopPropagation(); // elsewhere a picked frame is the next take
            this.choose(event.detail);
          }}
        ></evenfield-frame-picker>
        <span class="small quiet">${this.reading === null ? 'or drop it here' : `Reading ${this.reading}…`}</span>
      </div>`;
  }

  private inUse() {
    if (this.used.length === 0) return nothing;
    return html`<ul>
      ${this.used.map(({ role, frame }) => {
        const words = usedWords(role, frame, this.setup.frameWidthMm, this.unit);
        return html`<li>
          <span>Used: ${words}.</span>
          ${
            this.isNewest
              ? html`<button aria-label=${`Leave it out: ${words}`} @click=${() => this.leaveOut(role.kind)}>Leave it out</button>`
              : nothing
          }
        </li>`;
      })}
    </ul>`;
  }

  /** By how much the camera was slid, or the lens closed. */
  private amount() {
    if (this.kind === 'lamp-off') return nothing;
    if (this.kind === 'stopped-down')
      return html` ${this.figure('Stops that the lens was stopped down', {
        shown: stopsFigure(this.stops),
        parse: parseStops,
        keep: (stops) => {
          this.stops = stops;
        },
        slip: (text) => stopsSlipWords(text, this.stops),
      })}
      ${stopsUnit(this.stops)}`;
    const { frameWidthMm } = this.setup;
    return html` ${this.figure('How far the camera was slid', {
      shown: slideFigure(this.frameWidths, frameWidthMm, this.unit),
      parse: (text) => parseSlide(text, frameWidthMm, this.unit),
      keep: (frameWidths) => {
        this.frameWidths = frameWidths;
      },
      slip: (text) => slideSlipWords(text, this.frameWidths, frameWidthMm, this.unit),
    })}
    ${frameWidthMm === null ? 'of the frame’s width' : nothing}
    ${wordChoice('Which way the camera was slid, seen from behind it', this.side, SIDE_WORDS, (side) => {
      this.side = side;
    })}`;
  }

  private figure(name: string, { shown, parse, keep, slip }: TypedFigure) {
    const read = (event: Event) => {
      const input = event.target as HTMLInputElement;
      const figure = parse(input.value);
      this.tell('evenfield-slip', figure === null ? slip(input.value.trim()) : null);
      if (figure !== null) keep(figure);
      this.requestUpdate(); // what was typed, or a slip, gives way to what is kept
    };
    return html`<input aria-label=${name} inputmode="decimal" autocomplete="off" .value=${live(shown)} @change=${read} />`;
  }

  private choose(files: readonly File[]): void {
    const roles: Record<SecondFrameKind, SecondFrameRole> = {
      'lamp-off': { kind: 'lamp-off' },
      shifted: slidTo(this.side, this.frameWidths),
      'stopped-down': { kind: 'stopped-down', stops: this.stops },
    };
    const detail: ChosenSecondFrame = { files, role: roles[this.kind] };
    this.tell('evenfield-second-frame', detail);
  }

  private leaveOut(kind: SecondFrameKind): void {
    this.tell('evenfield-leave-out', kind);
    this.renderRoot.querySelector('select')?.focus(); // the button goes with its frame
  }

  private readonly hold = (event: DragEvent) => {
    if (!this.isNewest || !event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    this.over = true;
  };

  private readonly letGo = () => {
    this.over = false;
  };

  private readonly dropped = (event: DragEvent) => {
    this.over = false;
    const files = Array.from(event.dataTransfer?.files ?? []);
    if (!this.isNewest || files.length === 0) return;
    event.preventDefault();
    this.choose(files);
  };

  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-second-frame': EvenfieldSecondFrame;
  }
}
