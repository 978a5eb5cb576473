import type { Locator, Page } from '@playwright/test';
import type { Finding, Reading } from '../../src/engine/reading.ts';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import type { EvenfieldFindings } from '../../src/screen/evenfield-findings.ts';
import type { EvenfieldSecondFrame } from '../../src/screen/evenfield-second-frame.ts';
import { violations } from './axe-violations.ts';
import { cutText } from './cut-text.ts';
import { fileChoosers } from './file-choosers.ts';
import { tabTo } from './keyboard-way.ts';
import { A_READING, dropFiles, expect, openBench, takeIds, test, waitForVerdict } from './open-bench.ts';
import { setFrame } from './second-frame-files.ts';

const BLANK = setFrame('tumbler-wall.png');
const DARK = setFrame('room-dark.png');
const SLID = setFrame('slid.png');

const asDropped = ({ name, mimeType, buffer }: typeof BLANK) => ({ name, type: mimeType, bytes: buffer });

async function dropBlank(page: Page): Promise<void> {
  await openBench(page);
  await noteReadings(page);
  await dropFiles(page, [asDropped(BLANK)]);
  await waitForVerdict(page);
  await expect(shotWith(page)).toBeVisible();
}

const shotWith = (page: Page) => page.getByRole('combobox', { name: 'What the second frame is shot with' });

/** Remembers of which file each reading is that the element tells of. */
async function noteReadings(page: Page): Promise<void> {
  await page.evaluate(() => {
    const told: string[] = [];
    (window as unknown as { told: string[] }).told = told;
    document.addEventListener('evenfield-reading', (event) =>
      told.push((event as CustomEvent<Reading>).detail.frame.name),
    );
  });
}
const told = (page: Page) => page.evaluate(() => (window as unknown as { told: string[] }).told);

test('frames with the lights off and with the camera slid are added to the take, and one is left out again', async ({
  page,
}) => {
  test.setTimeout(120_000);
  await dropBlank(page);
  await expect(page.getByText('Same exposure, lights off, room as it was')).toBeVisible();
  await page.getByLabel('Choose the second frame…').setInputFiles(DARK);
  await expect(page.getByText('Used: room-dark.png, the lights off.')).toBeVisible(A_READING);
  expect(await told(page)).toEqual(['tumbler-wall.png', 'tumbler-wall.png']); // the take's, renewed

  await shotWith(page).selectOption('the camera slid');
  await expect(page.getByText('don’t turn it')).toBeVisible();
  const howFar = page.getByRole('textbox', { name: 'How far the camera was slid' });
  await expect(howFar).toHaveValue('33\u00a0%');
  await howFar.fill('a bit');
  await howFar.press('Tab');
  await expect(page.getByText('“a bit” is no slide from 1 to 100')).toBeVisible();
  await expect(howFar).toHaveValue('33\u00a0%');
  await page.getByRole('textbox', { name: 'Width of background that the frame shows' }).fill('60');
  await page.getByRole('textbox', { name: 'Width of background that the frame shows' }).press('Tab');
  await expect(howFar).toHaveValue('19.8 cm');
  await howFar.fill('20');
  await howFar.press('Tab');
  await expect(howFar).toHaveValue('20 cm');
  await page.getByRole('combobox', { name: 'Which way the camera was slid' }).selectOption('to the left');
  await page.getByLabel('Choose the second frame…').setInputFiles(SLID);
  await expect(page.getByText('Used: slid.png, the camera slid 20 cm to the left.')).toBeVisible(A_READING);
  await expect(page.getByText('Used: room-dark.png, the lights off.')).toBeVisible(A_READING);
  expect(await takeIds(page)).toEqual(['take-1']);

  await page.getByRole('button', { name: 'Leave it out: room-dark.png, the lights off' }).click();
  await expect(page.getByText('Used: room-dark.png')).toHaveCount(0);
  await expect(shotWith(page)).toBeFocused();
  await expect(page.getByText('Used: slid.png')).toBeVisible(A_READING);
});

test('by keyboard alone a frame with the lens stopped down is asked for and read', async ({ page }) => {
  test.setTimeout(120_000);
  const choosers = fileChoosers(page);
  await dropBlank(page);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(page, 'What the second frame is shot with', 90);
  await page.keyboard.type('the lens');
  await expect(shotWith(page)).toHaveValue('stopped-down');
  await page.keyboard.press('Tab');
  await page.keyboard.type('1.5'); // in place of what stands there, which is selected
  await page.keyboard.press('Tab');
  await expect(page.getByText(/make up for it with a slower shutter/)).toBeVisible();
  await page.keyboard.press('Enter'); // on the button that chooses
  await expect.poll(() => choosers.length).toBe(1);
  await choosers[0]!.setFiles([{ ...SLID, name: 'closed.png' }]);
  await expect(page.getByText('Used: closed.png, the lens stopped down 1.5\u00a0stops.')).toBeVisible(
    A_READING,
  );
});

test('a frame dropped on the sentence is the second frame, one dropped elsewhere a take', async ({
  page,
}) => {
  test.setTimeout(120_000);
  await dropBlank(page);
  const data = await page.evaluateHandle(
    ({ name, base64 }) => {
      const transfer = new DataTransfer();
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      transfer.items.add(new File([bytes], name, { type: 'image/png' }));
      return transfer;
    },
    { name: DARK.name, base64: DARK.buffer.toString('base64') },
  );
  const part = page.locator('evenfield-second-frame');
  await part.dispatchEvent('dragover', { dataTransfer: data, bubbles: true, cancelable: true });
  await expect(part).toHaveAttribute('over', '');
  await expect(page.locator('.page.over')).toHaveCount(0);
  await part.dispatchEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true });
  await expect(page.getByText('Used: room-dark.png, the lights off.')).toBeVisible(A_READING);
  await expect(part).not.toHaveAttribute('over');
  expect(await takeIds(page)).toEqual(['take-1']);

  await dropFiles(page, [asDropped(SLID)]);
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible(A_READING);
  await expect(page.getByText('Used: room-dark.png')).toHaveCount(0); // a new set-up has none
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(page.getByText('Used: room-dark.png, the lights off.')).toBeVisible(A_READING);
  await expect(page.getByRole('button', { name: 'Leave it out' })).toHaveCount(0);
  await expect(shotWith(page)).toHaveCount(0);
});

test('the sentence stands right beneath what one frame can’t tell, and keeps its words when that moves', async ({
  page,
}) => {
  await dropBlank(page);
  await shotWith(page).selectOption('the camera slid');
  const finding = { confidence: 0.5, ev: null, mired: null, at: null, lengthsMm: null };
  const show = (kinds: readonly Finding['kind'][]) =>
    page.locator('evenfield-findings').evaluate(
      (list: EvenfieldFindings, findings) => {
        list.findings = findings;
        return list.updateComplete;
      },
      kinds.map((kind) => ({ ...finding, kind, says: `Stands for ${kind}.` })),
    );
  const top = async (part: Locator) => (await part.boundingBox())!.y;
  const [doubt, other] = ['cannot-tell', 'creases'].map((kind) => page.getByText(`Stands for ${kind}.`));

  await show(['cannot-tell', 'creases']);
  expect(await top(shotWith(page))).toBeGreaterThan(await top(doubt!));
  expect(await top(shotWith(page))).toBeLessThan(await top(other!));
  await show(['creases', 'cannot-tell']);
  expect(await top(shotWith(page))).toBeGreaterThan(await top(doubt!));
  await show(['creases']);
  expect(await top(shotWith(page))).toBeGreaterThan(await top(other!));
  await expect(shotWith(page)).toHaveValue('shifted');

  await page.locator('evenfield-second-frame').evaluate((part: EvenfieldSecondFrame) => {
    part.settling = 'stopped-down';
  });
  await expect(page.getByText('Settle it with a second frame, shot with')).toBeVisible();
  await expect(shotWith(page)).toHaveValue('stopped-down'); // it begins with the one that settles the doubt
});

test('where one frame can’t tell, the sentence asks for the one that can, until a length settles it', async ({
  page,
}) => {
  await openBench(page);
  // a sample's own file, of whose set nothing is entered
  await page
    .getByLabel('Choose a frame…')
    .setInputFiles(new URL('../../samples/light-too-close.jpg', import.meta.url).pathname);
  await waitForVerdict(page);
  await expect(page.getByText(/^One frame can’t tell a light that stands too close/)).toBeVisible();
  const settle = page.getByText('Settle it with a second frame, shot with');
  await expect(settle).toBeVisible();
  await expect(shotWith(page)).toHaveValue('shifted');
  await shotWith(page).selectOption('the lens stopped down');
  for (const [name, length] of [
    ['Width of background that the frame shows', '42'],
    ['Distance of the light', '32'],
  ] as const) {
    await page.getByRole('textbox', { name, exact: true }).fill(length);
    await page.keyboard.press('Tab');
  }
  await expect(settle).toHaveCount(0, A_READING);
  await expect(shotWith(page)).toHaveValue('stopped-down'); // whoever chose another keeps it
});

test('a second frame that can’t be used is told of, and the take stays as it was', async ({ page }) => {
  await dropBlank(page);
  await page.getByLabel('Choose the second frame…').setInputFiles(BLANK);
  await expect(page.getByRole('alert')).toContainText(
    'tumbler-wall.png is the blank frame itself',
    A_READING,
  );
  await expect(page.getByRole('alert')).toBeInViewport();
  await expect(page.getByText('Used:')).toHaveCount(0);
});

test('read(source, { role }) resolves to the second frame’s own reading and refuses a bad wish by name', async ({
  page,
}) => {
  await dropBlank(page);
  const answer = await page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    const dark = new File([bytes], 'dark.png');
    const reading = await bench.read(dark, { role: 'lamp-off' });
    const lensCheck = { kind: 'stopped-down', stops: 0 } as const;
    const refused = await bench.read(dark, { role: 'lens-check', lensCheck }).catch(String);
    return { name: reading.frame.name, region: reading.region, refused, takes: bench.takes };
  }, DARK.buffer.toString('base64'));
  expect(answer.name).toBe('dark.png');
  expect(answer.refused).toBe('RangeError: "stops" has to be above 0, not 0');
  expect(answer.takes.map(({ reading }) => reading.frame.name)).toEqual(['tumbler-wall.png']);
  expect(answer.region).toEqual(answer.takes[0]!.reading.region);
  await expect(page.getByText('Used: dark.png, the lights off.')).toBeVisible(A_READING);
});

for (const [look, media] of [
  ['light', { colorScheme: 'light' }],
  ['dark', { colorScheme: 'dark' }],
  ['forced colours', { forcedColors: 'active' }],
] as const)
  test(`a second frame in use and the next one’s sentence pass axe in ${look}`, async ({ page }) => {
    await page.emulateMedia(media);
    await dropBlank(page);
    await page.getByLabel('Choose the second frame…').setInputFiles(DARK);
    await expect(page.getByText('Used: room-dark.png')).toBeVisible(A_READING);
    await shotWith(page).selectOption('the camera slid');
    expect(await violations(page)).toEqual([]);
  });

test('on a narrow screen with text of twice the size nothing of it is cut off', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await dropBlank(page);
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '200%';
  });
  const name = `${'room-without-the-lights'.repeat(7)}.png`;
  await page.getByLabel('Choose the second frame…').setInputFiles({ ...DARK, name });
  await expect(page.getByText(`Used: ${name}, the lights off.`)).toBeVisible(A_READING);
  for (const kind of ['the lights off', 'the camera slid', 'the lens stopped down']) {
    await shotWith(page).selectOption(kind);
    expect(await cutText(page), kind).toEqual([]);
  }
});
