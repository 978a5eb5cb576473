import type { Page } from '@playwright/test';
import type { Reading } from '../../src/engine/reading.ts';
import type { CameraResponse } from '../../src/engine/response/camera-response.ts';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { bracketOf } from '../engine/response/bracket-of.ts';
import { violations } from './axe-violations.ts';
import { cutText } from './cut-text.ts';
import { tabTo } from './keyboard-way.ts';
import { A_READING, dropFiles, expect, openBench, test, waitForVerdict } from './open-bench.ts';

const BRACKET = (await bracketOf({ size: () => [240, 160] })).map(({ name, bytes }) => ({
  name,
  mimeType: 'image/jpeg',
  buffer: Buffer.from(bytes),
}));
const BLANK = BRACKET[1]!;

const picker = (page: Page) => page.getByLabel('Choose the bracket’s frames…');
const steps = (page: Page) => page.getByRole('textbox', { name: /^Steps of flash power in stops/ });
const choice = (page: Page) => page.getByRole('checkbox', { name: 'Read the JPEGs of Model A by it' });
const section = (page: Page) => page.locator('evenfield-response');

async function dropBlank(page: Page): Promise<void> {
  await openBench(page);
  await dropFiles(page, [{ name: BLANK.name, type: BLANK.mimeType, bytes: BLANK.buffer }]);
  await waitForVerdict(page);
}

/** How the light of the newest take was read, and how far the light falls by it. */
const newest = (page: Page) =>
  page.evaluate(() => {
    const { frame, falloff } = document
      .querySelector<EvenfieldBench>('evenfield-bench')!
      .takes.at(-1)!.reading;
    return { light: frame.light, spreadEv: falloff.spreadEv };
  });

test('a bracket shows the camera’s curve, which is kept on the machine and gone by as wished', async ({
  page,
}) => {
  test.setTimeout(120_000);
  await dropBlank(page);
  const plain = await newest(page);
  expect(plain.light).toBe('display-decoded');
  await picker(page).setInputFiles(BRACKET);
  await expect(
    section(page).getByText(/Model A\. From 5 frames over 4\.0\sstops of shutter time/),
  ).toBeVisible(A_READING);
  await expect(page.getByRole('img', { name: 'The camera’s response' })).toBeVisible();
  expect(await violations(page)).toEqual([]);
  expect(await cutText(page)).toEqual([]);

  await choice(page).check();
  await expect.poll(async () => (await newest(page)).light, A_READING).toBe('response-recovered');
  await waitForVerdict(page);
  const by = await newest(page);
  console.log(
    `measured: the page reads ${plain.spreadEv.toFixed(3)} stop by sRGB alone, ${by.spreadEv.toFixed(3)} by the camera’s response`,
  );
  expect(Math.abs(by.spreadEv - plain.spreadEv)).toBeGreaterThan(0.05);

  await page.reload();
  await dropBlank(page); // kept, and gone by for that camera's files
  expect(await newest(page)).toEqual(by);
  await expect(choice(page)).toBeChecked();
  await page.getByRole('button', { name: 'Forget this response' }).click();
  await expect(choice(page)).toHaveCount(0);
  await expect.poll(async () => newest(page), A_READING).toEqual(plain);
  expect(await page.evaluate(() => JSON.stringify(localStorage))).not.toContain('channels');
  await expect(section(page).getByRole('img')).toHaveCount(0);
});

test('what can’t be gone by is said where it was chosen, and by keyboard the way is the same', async ({
  page,
}) => {
  await dropBlank(page);
  await picker(page).setInputFiles(BRACKET.slice(0, 2));
  const alert = section(page).getByRole('alert');
  await expect(alert).toContainText(/one stop of shutter shows as \d\.\d\d ± /, A_READING);
  await expect(alert).toContainText('three or more are needed');

  await tabTo(page, /^Steps of flash power/, 200);
  await page.keyboard.type('one, two');
  await page.keyboard.press('Tab');
  await picker(page).setInputFiles(BRACKET);
  await expect(alert).toContainText('“one, two” is no list of stops');
  await steps(page).fill('0, −1, −2');
  await steps(page).press('Tab');
  await picker(page).setInputFiles(BRACKET);
  await expect(alert).toContainText('3 exposure steps were entered for 5 frames', A_READING);
  await steps(page).fill('0 −1 −2 −3 −4');
  await steps(page).press('Tab');
  await picker(page).setInputFiles(BRACKET);
  await expect(section(page).getByText(/over 4\.0\sstops of power, as entered/)).toBeVisible(A_READING);
  await tabTo(page, /Read the JPEGs of Model A/, 20);
  await page.keyboard.press('Space');
  await expect.poll(async () => (await newest(page)).light, A_READING).toBe('response-recovered');
});

test('the response of a camera that its files do not name is gone by in this set-up alone, and the page says no more', async ({
  page,
}) => {
  const unnamed = (await bracketOf({ size: () => [240, 160], exif: () => ({ model: '' }) })).map(
    ({ name, bytes }) => ({ name, mimeType: 'image/jpeg', buffer: Buffer.from(bytes) }),
  );
  const drop = async () => {
    const { name, mimeType, buffer } = unnamed[1]!;
    await openBench(page);
    await dropFiles(page, [{ name, type: mimeType, bytes: buffer }]);
    await waitForVerdict(page);
  };
  await drop();
  await picker(page).setInputFiles(unnamed);
  const ofSetup = page.getByRole('checkbox', { name: 'Read the frames of this set-up by it' });
  await expect(ofSetup).not.toBeChecked(A_READING);
  await ofSetup.check();
  await expect.poll(async () => (await newest(page)).light, A_READING).toBe('response-recovered');
  await expect(ofSetup).toBeChecked();
  await page.reload();
  await drop();
  expect((await newest(page)).light).toBe('display-decoded');
  await expect(ofSetup).not.toBeChecked();
});

test('the element recovers a response for whoever asks, tells how far it is, and reads by it', async ({
  page,
}) => {
  await openBench(page);
  const files = BRACKET.map(({ name, buffer }) => ({ name, base64: buffer.toString('base64') }));
  const { response, phases, light, refused } = await page.evaluate(async (given) => {
    const blobs = given.map(
      ({ name, base64 }) => new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name),
    );
    const bench = document.querySelector<EvenfieldBench>('evenfield-bench')!;
    const phases = new Set<string>();
    bench.addEventListener('evenfield-progress', ({ detail }) => phases.add(detail.phase));
    const response: CameraResponse = await bench.readBracket(blobs);
    const reading: Reading = await bench.read(blobs[1]!, { response });
    const refused = await bench
      .readBracket(blobs.slice(0, 1))
      .catch(({ code, message }) => ({ code, message }));
    return { response, phases: [...phases], light: reading.frame.light, refused };
  }, files);
  expect(response).toMatchObject({ schema: 'evenfield.response/1', camera: 'Model A', fromStops: 4 });
  expect(response.plusMinusEv).toBeLessThan(0.1);
  expect(phases).toEqual(expect.arrayContaining(['decoding', 'fitting']));
  expect(light).toBe('response-recovered');
  expect(refused).toMatchObject({
    code: 'bad-bracket',
    message: expect.stringContaining('There is one frame'),
  });
});
