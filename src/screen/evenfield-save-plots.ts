import { css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { fetchedPart } from '../engine/fetched-part.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { downloadBlob } from '../sources/download-blob.ts';
import type { FullTake, HeldTake } from '../takes/take.ts';
import { ownTask } from './in-tasks.ts';
import { OwnTaskElement } from './own-task-element.ts';
import { type } from './paper.ts';
import { plotFiles } from './plot-files.ts';
import { pngOfPage } from './png-of-page.ts';
import { savedName } from './save-json.ts';
import { sentenceStyles } from './sentence.styles.ts';
import { wordChoice } from './word-choice.ts';
import type { LengthUnit } from './words/length-words.ts';
import { PLOT_FILE_WORDS, type PlotFile, plotNotSavedWords } from './words/plot-file-words.ts';

/**
 * Any plot of the report as a file of its own, for print or for a page.
 * @event evenfield-slip - {string | null} why none was saved, in a sentence; `null` once one is
 */
@customElement('evenfield-save-plots')
export class EvenfieldSavePlots extends OwnTaskElement {
  static override styles = [
    type,
    sentenceStyles,
    css`
      .buttons {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 0.75rem;
        margin-bottom: 0.5rem;
      }
      .why {
        line-height: 1.5;
        max-width: 90ch;
      }
    `,
  ];

  @property({ attribute: false }) take!: FullTake;
  @property({ attribute: false }) takes: readonly HeldTake[] = [];
  @property({ attribute: false }) tolerance!: Tolerance;
  @property() unit: LengthUnit = 'cm';
  @state() private chosen: PlotFile = 'light';

  private get plotted() {
    const { take, takes, tolerance, unit } = this;
    return { take, takes, tolerance, unit };
  }

  override render() {
    const files = plotFiles(this.plotted);
    const now = files.includes(this.chosen) ? this.chosen : files[0]!;
    const words = Object.fromEntries(files.map((file) => [file, PLOT_FILE_WORDS[file]])) as Record<
      PlotFile,
      string
    >;
    return html`<div class="buttons">
        <p>
          ${wordChoice('The plot to save', now, words, (chosen) => {
            this.chosen = chosen;
          })}
        </p>
        <button @click=${() => this.save(now, 'svg')}>Save it as SVG</button>
        <button @click=${() => this.save(now, 'png')}>Save it as PNG</button>
      </div>
      <p class="small quiet why">Each plot by itself, black on white with its title and what it means: SVG keeps its lines at any size, PNG has 300 dots an inch.</p>`;
  }

  private async save(file: PlotFile, kind: 'svg' | 'png'): Promise<void> {
    const { plotted } = this;
    await ownTask();
    try {
      const { plotPage } = await fetchedPart('draws plots as files', () => import('./plot-pages.ts'));
      const page = plotPage(file, plotted);
      const name = savedName(plotted.take.reading.frame.name, file, kind);
      downloadBlob(
        name,
        kind === 'svg' ? new Blob([page.svg], { type: 'image/svg+xml' }) : await pngOfPage(page),
      );
      this.tell(null);
    } catch (error) {
      this.tell(plotNotSavedWords(kind, error));
    }
  }

  private tell(detail: string | null): void {
    this.dispatchEvent(new CustomEvent('evenfield-slip', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-save-plots': EvenfieldSavePlots;
  }
}
