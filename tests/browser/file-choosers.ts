import type { FileChooser, Page } from '@playwright/test';

/**
 * The file choosers that the page opens, as they come. To be asked for before the page is opened: one that opens just
 * after listening has begun is sometimes missed.
 */
export function fileChoosers(page: Page): readonly FileChooser[] {
  const choosers: FileChooser[] = [];
  page.on('filechooser', (chooser) => choosers.push(chooser));
  return choosers;
}
