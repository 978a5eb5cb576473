import type { Page } from '@playwright/test';

/** From a key or a button pressed to the next picture that shows it. */
export interface Interaction {
  readonly name: string;
  readonly startedAt: number;
  readonly durationMs: number;
}

export interface InteractionTimes {
  /** Times of every press of a key or button, however fast it was answered. */
  presses: number[];
  /** Those that took the browser's least reported time of 16 ms or more. */
  slow: Interaction[];
  readAt: number | null;
}

/** Measures what is done on the page from now on, and notes when a frame has been read. */
export async function watchInteractions(page: Page): Promise<void> {
  await page.evaluate(() => {
    const times: InteractionTimes = { presses: [], slow: [], readAt: null };
    Object.assign(window, { interactionTimes: times });
    for (const type of ['keydown', 'pointerdown'])
      window.addEventListener(
        type,
        (event) => {
          if (event.isTrusted) times.presses.push(event.timeStamp);
        },
        { capture: true },
      );
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEventTiming & { interactionId: number })[])
        if (entry.interactionId > 0)
          times.slow.push({ name: entry.name, startedAt: entry.startTime, durationMs: entry.duration });
    }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
    document.addEventListener('evenfield-reading', () => {
      times.readAt ??= performance.now();
    });
  });
}

/** What was measured since {@link watchInteractions} or {@link forgetInteractions}. */
export function interactionTimes(page: Page): Promise<InteractionTimes> {
  return page.evaluate(() => (window as unknown as { interactionTimes: InteractionTimes }).interactionTimes);
}

export function forgetInteractions(page: Page): Promise<void> {
  return page.evaluate(() => {
    const times = (window as unknown as { interactionTimes: InteractionTimes }).interactionTimes;
    times.presses.length = 0;
    times.slow.length = 0;
    times.readAt = null;
  });
}
