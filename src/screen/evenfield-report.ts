import { html, LitElement } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { FramePoint } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { believedSet } from '../plots/plan-input.ts';
import { downloadBlob } from '../sources/download-blob.ts';
import type { DeletedTake } from '../takes/deleted-take.ts';
import { toldBefore } from '../takes/foretold.ts';
import type { MoveAnswers } from '../takes/move-answers.ts';
import { settlingFrame } from '../takes/settling-frame.ts';
import { setupAtTake } from '../takes/setup-after.ts';
import type { FullTake, HeldTake } from '../takes/take.ts';
import { cellsCsv } from './cells-csv.ts';
import './evenfield-cast.ts';
import './evenfield-exposure.ts';
import './evenfield-findings.ts';
import './evenfield-gradient.ts';
import './evenfield-map.ts';
import './evenfield-moves.ts';
import './evenfield-plan.ts';
import './evenfield-record.ts';
import './evenfield-save.ts';
import './evenfield-sign.ts';
import './evenfield-second-frame.ts';
import './evenfield-take-table.ts';
import './evenfield-takes.ts';
import './evenfield-verdict.ts';
import { reportStyles } from './evenfield-report.styles.ts';
import { FetchedFoot } from './fetched-foot.ts';
import { type } from './paper.ts';
import type { ProposedFrames } from './proposed-frames.ts';
import { savedName } from './save-json.ts';
import type { LengthUnit } from './words/length-words.ts';
import { takeName } from './words/take-words.ts';

/** The parts of the report that a page may style, handed on by the bench. */
export const REPORT_PARTS =
  'verdict, moves, maps, plan, cast, findings, takes, exposure, response, correct, save, record';

/**
 * Everything that was read from one take, from the verdict down to the files to be saved.
 * @event evenfield-job - {Profile | null} when the whole job is wanted as one file, and what was made to correct by
 */
@customElement('evenfield-report')
export class EvenfieldReport extends LitElement {
  static override styles = [type, reportStyles];

  private readonly foot = new FetchedFoot(this, () => import('./report-foot.ts'));
  @state() private place: FramePoint | null = null;

  @property({ attribute: false }) take!: FullTake;
  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  /** What became of the newest take's moves so far. */
  @property({ attribute: false }) answers: MoveAnswers = [];
  /** The take that was deleted last. */
  @property({ attribute: false }) deleted: DeletedTake | null = null;
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() unit: LengthUnit = 'cm';
  /** The name of the file that is being read. */
  @property({ attribute: false }) fileUnderWay: string | null = null;
  /** Frames proposed for correction. */
  @property({ attribute: false }) toCorrect: ProposedFrames | null = null;

  override render() {
    const { reading, report } = this.take;
    const stands = setupAtTake(this.takes, this.take.id);
    const used = this.take.secondFrames;
    const settling = settlingFrame(
      report,
      used.map(({ role }) => role.kind),
    );
    const isPlanned = report.isSetTrusted && (report.set?.lights.length ?? 0) > 0;
    const isReadAlone = report.set?.isTakenApart ?? false;
    const told = toldBefore(this.takes, this.take.id);
    const aim = report.aimed?.aim.kind ?? 'even';
    const ofEven = told === null ? reading : { ...reading, ...told }; // those that were made, not others
    const withMoves = aim === 'ramp' ? { ...ofEven, moves: [], predicted: null } : ofEven;
    return html`<evenfield-verdict part="verdict" class="on-screen" .reading=${reading} .tolerance=${this.tolerance} .aimed=${report.aimed}></evenfield-verdict>
      <evenfield-sign class="on-screen" .reading=${reading} .tolerance=${this.tolerance} .aimed=${report.aimed} .name=${takeName(this.take)}></evenfield-sign>
      <div class="columns" @evenfield-place=${this.light} @evenfield-look=${this.lookAtMap}>
        <evenfield-moves part="moves" .reading=${withMoves} .setup=${stands} .foundBy=${{ isPlanned, isReadAlone, settling }} .tolerance=${this.tolerance} .unit=${this.unit} .answers=${this.isNewest ? this.answers : null} .isAsTold=${told !== null} .aim=${aim}></evenfield-moves>
        <section part="maps" class="map" aria-label="The frame">
          <h2>The frame</h2>
          <evenfield-map .reading=${reading} .tolerance=${this.tolerance} .marked=${this.place} .clippedShare=${report.grid.highlightShare} .file=${this.isNewest ? (this.take.frames[0]?.blob ?? null) : null} .regionSays=${report.regionSays || null}></evenfield-map>
        </section>
        <evenfield-plan part="plan" .reading=${withMoves} .setup=${stands} .set=${believedSet(report, stands)} .unit=${this.unit}></evenfield-plan>
        <evenfield-cast part="cast" .reading=${reading} .tolerance=${this.tolerance}></evenfield-cast>
        <div part="findings" class="found">
          <evenfield-findings .findings=${reading.findings} .region=${reading.region} .unit=${this.unit}>
            <evenfield-second-frame .used=${used} .setup=${stands} .unit=${this.unit} .settling=${settling} .isNewest=${this.isNewest} .reading=${this.fileUnderWay}></evenfield-second-frame>
          </evenfield-findings>
          <evenfield-gradient .reading=${reading}></evenfield-gradient>
        </div>
        <div part="takes" class="takes">
          <evenfield-takes .takes=${this.takes} .deleted=${this.deleted} .tolerance=${this.tolerance} .shown=${this.take.id} .unit=${this.unit}></evenfield-takes>
          <evenfield-compare .takes=${this.takes} .tolerance=${this.tolerance}></evenfield-compare>
          <evenfield-take-table .takes=${this.takes}></evenfield-take-table>
        </div>
        <evenfield-exposure part="exposure" .take=${this.take} .setup=${stands}></evenfield-exposure>
        ${
          this.foot.failure === null
            ? html`<evenfield-response part="response" .take=${this.take} .isNewest=${this.isNewest}></evenfield-response>
              <evenfield-correct part="correct" .take=${this.take} .unit=${this.unit} .toCorrect=${this.toCorrect}></evenfield-correct>`
            : html`<p class="foot">${this.foot.failure} <button @click=${this.foot.again}>Try again</button></p>`
        }
        <evenfield-save part="save" @evenfield-save-cells=${this.saveCells} @evenfield-save-job=${this.saveJob}>
          <evenfield-save-plots .take=${this.take} .takes=${this.takes} .tolerance=${this.tolerance} .unit=${this.unit}></evenfield-save-plots>
        </evenfield-save>
      </div>
      <evenfield-record part="record" .take=${this.take} .takes=${this.takes} .tolerance=${this.tolerance} .unit=${this.unit}></evenfield-record>`;
  }

  /** Only the newest take can be read again: what was moved after an older one was judged by it. */
  private get isNewest(): boolean {
    return this.take.id === this.takes.at(-1)?.id;
  }

  private saveCells(): void {
    const { reading } = this.take;
    const csv = new Blob([cellsCsv(reading)], { type: 'text/csv' });
    downloadBlob(savedName(reading.frame.name, 'cells', 'csv'), csv);
  }

  /** With the profile that stands in this report, which no other part of the page knows. */
  private saveJob(event: Event): void {
    event.stopPropagation();
    const detail = this.renderRoot.querySelector('evenfield-correct')?.profile ?? null;
    this.dispatchEvent(new CustomEvent('evenfield-job', { detail, bubbles: true, composed: true }));
  }

  private lookAtMap(): void {
    this.renderRoot.querySelector('.map')?.scrollIntoView({ block: 'nearest' });
  }

  private light(event: CustomEvent<FramePoint | null>): void {
    this.place = event.detail;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-report': EvenfieldReport;
  }
}
