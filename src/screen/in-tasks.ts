/** How long one stretch of work may keep the page from answering. */
const STRETCH_MS = 16;

/** Waits for a task of its own, so that what came before has been drawn and the page has answered. */
export function ownTask(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve);
  });
}

/** What TypeScript's library does not know yet. Source: W3C, Prioritized Task Scheduling. */
interface Scheduler {
  postTask(task: () => void, options: { priority: 'background' }): Promise<void>;
}

/** The same, after whatever somebody has pressed was answered and drawn, where the browser knows of such an order. */
export function quietTask(): Promise<void> {
  const { scheduler } = globalThis as { scheduler?: Scheduler };
  return scheduler?.postTask ? scheduler.postTask(() => {}, { priority: 'background' }) : ownTask();
}

/**
 * Runs work that stops by itself now and then, over as many tasks as it takes. `null` where it is no longer wanted
 * before it is done.
 */
export async function inTasks<Result>(
  work: Generator<void, Result>,
  isWanted: () => boolean,
): Promise<Result | null> {
  for (;;) {
    await ownTask();
    if (!isWanted()) return null;
    const until = performance.now() + STRETCH_MS;
    let step = work.next();
    while (!step.done && performance.now() < until) step = work.next();
    if (step.done) return step.value;
  }
}
