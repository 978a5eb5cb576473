import { benchAround } from './bench-around.ts';

/** Set on the element whose record is being printed; other elements then print nothing. */
const PRINTED = 'printed';

/**
 * What else the page holds stays off the paper: all that neither is the element nor lies around it, and what lies
 * around it gives no room away. A page that has the element inside a shadow of its own sees to that itself.
 */
const RULES = `
@page { margin: 12mm; }
@media print {
  body :not(:has(evenfield-bench[${PRINTED}])):not(evenfield-bench[${PRINTED}]) { display: none !important; }
  html, body, body :has(evenfield-bench[${PRINTED}]) {
    display: block !important; margin: 0 !important; padding: 0 !important; border: 0 !important;
    width: auto !important; max-width: none !important; min-height: 0 !important; background: none !important;
  }
}`;

/** What tells that somebody is at the page again: a browser that refuses to print does not say so. */
const BACK_AT_PAGE = ['afterprint', 'focus', 'pointerdown'] as const;

let printed: Element | null = null;
let putAway = () => {};

/** Whether what is printed now is the element that a part stands in, or the page as it is, with all of them. */
export const isPrintedWith = (part: Node): boolean => printed === null || printed === benchAround(part);

/** Prints the record of the element that a part stands in, and nothing else of the page. */
export function printAlone(part: Node, page: Window & typeof globalThis = window): void {
  putAway();
  const bench = benchAround(part);
  if (bench === null) {
    page.print();
    return;
  }
  const rules = new page.CSSStyleSheet();
  rules.replaceSync(RULES);
  const { document } = page;
  const isInPage = bench.getRootNode() === document;
  printed = bench;
  bench.toggleAttribute(PRINTED, true);
  if (isInPage) document.adoptedStyleSheets.push(rules);
  const back = new page.AbortController();
  putAway = () => {
    putAway = () => {};
    back.abort();
    printed = null;
    bench.toggleAttribute(PRINTED, false);
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== rules);
  };
  const { signal } = back;
  for (const name of BACK_AT_PAGE) page.addEventListener(name, () => putAway(), { capture: true, signal });
  page.print(); // not every browser waits in the call
}
