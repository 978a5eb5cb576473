import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ACCEPTED_FILES } from '../sources/picture-files.ts';
import { type } from './paper.ts';

/**
 * A button that picks files from the machine.
 * @event evenfield-picked - {File[]} when files were chosen
 */
@customElement('evenfield-frame-picker')
export class EvenfieldFramePicker extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    type,
    css`
      :host {
        display: inline-block;
      }
    `,
  ];

  @property() label = 'Choose a frame…';
  /** Whether a saved job can be chosen too. */
  @property({ type: Boolean }) takesJobs = false;

  override render() {
    return html`<label class="button"
      >${this.label}<input
        class="unseen"
        type="file"
        multiple
        accept=${this.takesJobs ? `${ACCEPTED_FILES},.gz` : ACCEPTED_FILES}
        @change=${this.pick}
        @keydown=${this.openByEnter}
    /></label>`;
  }

  /** A file input opens by the space bar alone; what looks like a button opens by Enter too. */
  private openByEnter(event: KeyboardEvent): void {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    (event.target as HTMLInputElement).click();
  }

  private pick(event: Event): void {
    const input = event.target as HTMLInputElement;
    const files = Array.from(input.files ?? []);
    input.value = ''; // so that the same file can be chosen again
    if (files.length > 0)
      this.dispatchEvent(
        new CustomEvent('evenfield-picked', { detail: files, bubbles: true, composed: true }),
      );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-frame-picker': EvenfieldFramePicker;
  }
}
