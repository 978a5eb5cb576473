import type { Page } from '@playwright/test';

/**
 * What of the page's visible words is cut off, sticks out of its box or makes the page scroll sideways: one line for
 * each. Looks into every shadow root; boxes that scroll up and down of their own are no fault.
 */
export function cutText(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const SLACK = 1.5; // parts of a pixel, and the overhang of a letter
    const found: string[] = [];
    const { scrollWidth, clientWidth } = document.scrollingElement!;
    const name = (element: Element, text: string) =>
      `${element.localName}${element.className && typeof element.className === 'string' ? `.${element.className}` : ''} "${text.trim().replace(/\s+/g, ' ').slice(0, 40)}"`;
    const parentOf = (element: Element) =>
      element.assignedSlot ?? element.parentElement ?? (element.getRootNode() as ShadowRoot).host ?? null;

    /** Seen by nobody, on purpose: for screen readers, or folded away. */
    const isUnseen = (element: Element) => {
      for (let each: Element | null = element; each; each = parentOf(each)) {
        const { clipPath, display, visibility } = getComputedStyle(each);
        if (clipPath !== 'none' || display === 'none' || visibility === 'hidden') return true;
        if (each instanceof SVGSVGElement) return false;
      }
      return !element.checkVisibility();
    };

    const lookAtText = (element: Element, node: Text) => {
      const range = document.createRange();
      range.selectNodeContents(node);
      const rects = [...range.getClientRects()].filter(({ width }) => width > 0);
      if (rects.length === 0) return;
      const left = Math.min(...rects.map((rect) => rect.left));
      const right = Math.max(...rects.map((rect) => rect.right));
      if (left < -SLACK || right > clientWidth + SLACK)
        found.push(
          `${name(element, node.data)} lies from ${Math.round(left)} to ${Math.round(right)} px of ${clientWidth}`,
        );
      for (let box: Element | null = element; box; box = parentOf(box)) {
        const { display, overflowX } = getComputedStyle(box);
        if (display === 'inline' || display === 'contents') continue;
        if (element instanceof SVGElement && overflowX === 'visible') continue; // words of a drawing may stand in its margin
        const edge = box.getBoundingClientRect();
        if (left < edge.left - SLACK || right > edge.right + SLACK) {
          found.push(
            `${name(element, node.data)} sticks out of ${name(box, '')} by ${Math.round(Math.max(edge.left - left, right - edge.right))} px`,
          );
          return;
        }
        if (overflowX !== 'visible') return;
      }
    };

    const look = (root: Document | ShadowRoot) => {
      for (const element of root.querySelectorAll('body, body *, :host *, *')) {
        if (
          ['SCRIPT', 'STYLE', 'TITLE', 'DESC', 'NOSCRIPT', 'OPTION'].includes(element.tagName.toUpperCase())
        )
          continue;
        if (element.shadowRoot) look(element.shadowRoot);
        if (isUnseen(element)) continue;
        if (
          element instanceof HTMLInputElement ||
          element instanceof HTMLTextAreaElement ||
          element instanceof HTMLSelectElement
        ) {
          const isTyped = !(element instanceof HTMLInputElement) || element.type === 'text';
          if (isTyped && element.scrollWidth > element.clientWidth + SLACK)
            found.push(
              `${name(element, element.value)} shows ${element.clientWidth} of ${element.scrollWidth} px`,
            );
          continue;
        }
        for (const node of element.childNodes)
          if (node instanceof Text && node.data.trim()) lookAtText(element, node);
      }
    };
    /** The box that reaches farthest to the right, to be told where the page scrolls sideways. */
    const farthest = (root: Document | ShadowRoot, sofar: [string, number]): [string, number] => {
      let most = sofar;
      for (const element of root.querySelectorAll('*')) {
        const { right } = element.getBoundingClientRect();
        if (right > most[1] && !(element.parentElement instanceof SVGElement) && !isUnseen(element))
          most = [name(element, element.textContent ?? ''), right];
        if (element.shadowRoot) most = farthest(element.shadowRoot, most);
      }
      return most;
    };

    look(document);
    if (scrollWidth > clientWidth)
      found.push(
        `the page is ${scrollWidth} px wide in ${clientWidth}, by ${farthest(document, ['nothing', 0])[0]}`,
      );
    return [...new Set(found)];
  });
}
