import { html, type TemplateResult } from 'lit';

/** One word of a sentence as a choice: what it is of, what stands now, and each possible value in words. */
export function wordChoice<T extends string>(
  name: string,
  now: T,
  words: Record<T, string>,
  choose: (chosen: T) => void,
): TemplateResult {
  return html`<select aria-label=${name} @change=${(event: Event) => choose((event.target as HTMLSelectElement).value as T)}>
    ${(Object.keys(words) as T[]).map((key) => html`<option value=${key} ?selected=${key === now}>${words[key]}</option>`)}
  </select>`;
}
