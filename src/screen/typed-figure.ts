import { html, type TemplateResult } from 'lit';

/** One figure of a sentence: its name, what stands there, and what becomes of what is typed. */
export interface TypedFigure {
  readonly name: string;
  readonly shown: string;
  /** What is shown where nothing is known. */
  readonly unknown?: string;
  /** `null` for what is no such figure. */
  readonly parse: (text: string) => number | null;
  /** What is said of a slip. */
  readonly slip: (typed: string) => string;
  readonly change: (figure: number) => void;
  /** Where nothing may stand there: what an empty field means. */
  readonly clear?: () => void;
}

/**
 * A figure as a word of a sentence that can be typed over. A slip changes nothing and is told by `evenfield-slip`, which
 * is `null` once what is typed is understood.
 */
export function typedFigure({
  name,
  shown,
  unknown,
  parse,
  slip,
  change,
  clear,
}: TypedFigure): TemplateResult {
  const read = (event: Event) => {
    const input = event.target as HTMLInputElement;
    const typed = input.value.trim();
    const isCleared = typed === '' && clear !== undefined;
    const figure = isCleared ? null : parse(typed);
    const detail = isCleared || figure !== null ? null : slip(typed);
    input.dispatchEvent(new CustomEvent('evenfield-slip', { detail, bubbles: true, composed: true }));
    if (isCleared) clear();
    else if (figure !== null) change(figure);
    else input.value = shown;
  };
  return html`<input aria-label=${name} inputmode="text" autocomplete="off" placeholder=${unknown ?? ''} .value=${shown} @change=${read} />`;
}
