import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';

/** Of each take its id, its file and how many cells its map has, in their order. */
export function takesOf(page: Page): Promise<(readonly [string, string, number])[]> {
  return page.evaluate(() =>
    (document.querySelector('evenfield-bench') as EvenfieldBench).takes.map(
      ({ id, reading }) => [id, reading.frame.name, reading.falloff.evMap.length] as const,
    ),
  );
}

/** Megabytes that the page holds of objects, arrays and elements, tidied up: not what its allocator keeps for later. */
export async function heldByPage(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const usage = (await session.send('Runtime.getHeapUsage')) as Record<string, number>;
  await session.detach();
  const { usedSize = 0, embedderHeapUsedSize = 0, backingStorageSize = 0 } = usage;
  return (usedSize + embedderHeapUsedSize + backingStorageSize) / 1e6;
}

/** How many takes lie in the browser's database. */
export function keptTakes(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        const opening = indexedDB.open('evenfield');
        opening.onsuccess = () => {
          const counting = opening.result.transaction('evidence').objectStore('evidence').count();
          counting.onsuccess = () => {
            opening.result.close();
            resolve(counting.result);
          };
        };
      }),
  );
}
