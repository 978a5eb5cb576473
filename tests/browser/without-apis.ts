import type { Page } from '@playwright/test';

/** What another browser lacks, as paths from its global object: in pages, and in the workers that they start. */
export interface Lacking {
  readonly inPage?: readonly string[];
  readonly inWorker?: readonly string[];
}

/** Takes what is named away before anything runs: `Navigator.prototype.locks`, `ImageDecoder`. */
const takenAway = (paths: readonly string[]) => `
for (const path of ${JSON.stringify(paths)}) {
  const names = path.split('.');
  const last = names.pop();
  const owner = names.reduce((at, name) => at?.[name], globalThis);
  if (owner && !delete owner[last]) throw new Error('can not take away ' + path);
}
`;

/** Opens pages as a browser would that lacks these. To be called before the page is opened. */
export async function takeAway(page: Page, { inPage = [], inWorker = [] }: Lacking): Promise<void> {
  await page.addInitScript(takenAway(inPage));
  if (inWorker.length > 0) await beforeWorkers(page, takenAway(inWorker));
}

/** Runs a script before that of every worker. */
export async function beforeWorkers(page: Page, script: string): Promise<void> {
  await page.route('**/*.worker-*.js', async (route) => {
    const response = await route.fetch();
    await route.fulfill({ response, body: `${script}\n${await response.text()}` });
  });
}
