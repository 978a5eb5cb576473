import type { Page } from '@playwright/test';

/** Presses Tab until the element of that name has the focus, as one without a mouse would: once round the page at most. */
export async function tabTo(page: Page, name: string | RegExp, most = 90): Promise<void> {
  for (let i = 0; i < most; i++) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => {
      let element = document.activeElement;
      while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
      if (element === null) return '';
      const label = element.closest('label')?.textContent ?? '';
      return (element.getAttribute('aria-label') ?? `${label}${element.textContent}`)
        .trim()
        .replace(/\s+/g, ' ');
    });
    if (typeof name === 'string' ? focused.startsWith(name) : name.test(focused)) return;
  }
  throw new Error(`Tab never came to ${name}`);
}
