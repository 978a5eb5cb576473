import type { Page } from '@playwright/test';

/** Keeps the page's thread at work for so long in one task, so that an observer can show that it sees such. */
export function keepBusy(page: Page, milliseconds: number): Promise<void> {
  return page.evaluate(
    (busyFor) =>
      new Promise<void>((done) => {
        setTimeout(() => {
          const until = performance.now() + busyFor;
          while (performance.now() < until);
          done();
        });
      }),
    milliseconds,
  );
}

/** Makes the next click on the page hold its thread for so long, as a slow handler would. */
export function slowNextClick(page: Page, milliseconds: number): Promise<void> {
  return page.evaluate((busyFor) => {
    const slow = () => {
      const until = performance.now() + busyFor;
      while (performance.now() < until);
    };
    window.addEventListener('click', slow, { capture: true, once: true });
  }, milliseconds);
}
