import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { toPng } from '../synthetic/encode.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { dropFiles, expect, openBench, test, waitForVerdict } from './open-bench.ts';

/** A ramp of a stop, brighter towards the top, its brightest a quarter of white; linear, so that nothing is assumed. */
function rampFrame(): Uint8Array {
  const field = (_x: number, y: number) => {
    const light = 0.25 * 2 ** -y;
    return [light, light, light] as const;
  };
  const how = {
    widthPx: 480,
    heightPx: 320,
    bits: 16,
    curve: 'linear',
    electronsAtFull: null,
    seed: 1,
  } as const;
  return toPng(renderFrame(field, how), {
    gamma: 1,
    exif: { exposureTime: [1, 125], fNumber: [80, 10], iso: 100 },
  });
}

async function readRamp(page: Page): Promise<void> {
  await openBench(page);
  await dropFiles(page, [{ name: 'ramp.png', type: 'image/png', bytes: rampFrame() }]);
  await waitForVerdict(page);
}

const choose = (page: Page, name: string, option: string) =>
  page.getByRole('combobox', { name, exact: true }).selectOption(option);

async function type(page: Page, name: string, text: string): Promise<void> {
  const word = page.getByRole('textbox', { name, exact: true });
  await word.fill(text);
  await word.press('Enter');
}

const aim = (page: Page) =>
  page.evaluate(() => (document.querySelector('evenfield-bench') as EvenfieldBench).aim);

test('what the background is to be is a word of the sentence, and its verdict comes first', async ({
  page,
}) => {
  await readRamp(page);
  const verdict = page.locator('evenfield-report .verdict').first();
  await expect(verdict).toContainText('Within 1.0 stop across the frame');
  await choose(page, 'Aim', 'a ramp');
  await expect(verdict).toContainText('Not your ramp: within 1.0 stop of a straight one towards the top');
  await expect(page.getByText('As an even background: within 1.0 stop')).toBeVisible();
  await expect(page.getByText('No moves are told')).toBeVisible();
  await type(page, 'Stops of the ramp', '1');
  await expect(verdict).toContainText('Your ramp: within 0.0 stop of a straight one');
  await choose(page, 'Brighter side of the ramp', 'the top right');
  await expect(verdict).toContainText('Not your ramp');
  expect(await aim(page)).toEqual({ kind: 'ramp', angleDeg: 315, ev: 1 });
  await type(page, 'Stops of the ramp', 'much');
  await expect(page.getByText('“much” is no figure from 0.05 to 10 stops: 1 stays.')).toBeVisible();
  await choose(page, 'Aim', 'clean white');
  // 3 stops: the darkest lies at an eighth of white
  await expect(verdict).toContainText('with 3.0 stops more the darkest point just reaches paper white');
  await expect(page.getByText('As shot, none of it is paper white')).toBeVisible();
  await choose(page, 'Paper white', 'from a code value on:');
  await type(page, 'Code of paper white', '50 %');
  await expect(verdict).toContainText('with 2.0 stops more');
  await type(page, 'Most over paper white', '1/3');
  await expect(verdict).toContainText('you allow 1/3');
});

test('the element’s aim is checked, and an equal one changes nothing', async ({ page }) => {
  await readRamp(page);
  const told = await page.evaluate(async () => {
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    const readings: unknown[] = [];
    bench.addEventListener('evenfield-reading', (event) => readings.push(event));
    const nameOf = (aim: unknown) => {
      try {
        bench.aim = aim as never;
        return 'taken';
      } catch (error) {
        return (error as Error).name;
      }
    };
    const names = [
      nameOf({ kind: 'even' }),
      nameOf({ kind: 'odd' }),
      nameOf({ kind: 'ramp', angleDeg: 0, ev: 99 }),
    ];
    await new Promise((resolve) => setTimeout(resolve, 300));
    return { names, readings: readings.length };
  });
  expect(told).toEqual({ names: ['taken', 'TypeError', 'RangeError'], readings: 0 });
});

test('a slip in the exposure is told until what is typed is understood', async ({ page }) => {
  await readRamp(page);
  const slip = page.getByText('“bright” is no figure');
  await type(page, 'Stops below clipping', 'bright');
  await expect(slip).toBeVisible();
  await type(page, 'Stops below clipping', '1/3');
  await expect(slip).toBeHidden();
  const power = page.getByText('“much” is no power');
  await type(page, 'Power of the light', 'much');
  await expect(power).toBeVisible();
  await type(page, 'Power of the light', '1/4');
  await expect(power).toBeHidden();
});

test('a plot that the browser can’t draw as a picture is told of, until one is saved', async ({ page }) => {
  await readRamp(page);
  await page.evaluate(() => {
    HTMLCanvasElement.prototype.toBlob = (done) => done(null);
  });
  await page.getByRole('button', { name: 'Save it as PNG' }).click();
  const told = page.getByText('The plot could not be saved as PNG (the browser made no picture of it)');
  await expect(told).toBeVisible();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save it as SVG' }).click();
  await saved;
  await expect(told).toBeHidden();
});

test('an exposure is said as settings of the camera and power of the light', async ({ page }) => {
  await readRamp(page);
  const exposure = page.locator('evenfield-exposure');
  await expect(exposure).toContainText('hottest part stands 2.0 stops');
  await choose(page, 'Kind of light', 'continuous');
  await expect(
    exposure.getByText('Expose 1.0 stop more, so that the hottest part stands a stop below clipping.'),
  ).toBeVisible();
  await expect(exposure.getByRole('listitem')).toHaveText([
    'Shutter 1/125 s to 1/60 s.',
    'Aperture f/8 to f/5.6.',
    'ISO 100 to 200.',
    'Light: power up by 1 stop.',
  ]);
  await choose(page, 'Kind of light', 'flash');
  await type(page, 'Stops below clipping', '1/3');
  await type(page, 'Power of the light', '1/4');
  // 1.67 stops: a flash has nothing of the shutter
  await expect(exposure.getByRole('listitem')).toHaveText([
    'Aperture f/8 to f/4.5.',
    'ISO 100 to 320.',
    'Light 1/4 to 1/2 + 0.7.',
  ]);
  await choose(page, 'What is brought to a level', 'its mean to a code value');
  await type(page, 'Code value of the mean', '128');
  await expect(exposure).toContainText('Expose 1.5 stops more.');
  await choose(page, 'What is brought to a level', 'its mean over the subject');
  await expect(exposure).toContainText('depends on the subject');
  await choose(page, 'How the subject’s level is known', 'is metered: the background lies over it by');
  await type(page, 'Stops metered over the subject', '0');
  await expect(exposure).toContainText('Turn the background’s light up by 1.0 stop');
  await expect(exposure.getByRole('listitem')).toHaveText(['Light 1/4 to 1/2.']);
});
