import { readFileSync, writeFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { decode } from 'fast-png';
import type { ElementsManifest } from '../../src/package/elements-manifest.ts';
import { largeDng } from '../synthetic/large-dng.ts';
import { type InstalledPackage, installPackage } from './installed-package.ts';
import { A_READING } from './open-bench.ts';
import { type ServedFolder, serveFolder } from './served-folder.ts';
import { subjectFrame } from './subject-files.ts';

let installed: InstalledPackage;
let served: ServedFolder;
test.beforeAll(async () => {
  installed = installPackage();
  served = await serveFolder(installed.project);
});
test.afterAll(async () => {
  await served.close();
  installed.remove();
});

const sample = (name: string) => new URL(`../../samples/${name}`, import.meta.url).pathname;

/** Opens the example page, and notes whatever goes wrong on it or leaves its origin. */
async function openExample(page: Page): Promise<string[]> {
  const faults: string[] = [];
  page.on('console', (message) => {
    const isIcon = message.location().url.endsWith('/favicon.ico');
    if (message.type() === 'error' && !isIcon) faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('request', (request) => {
    const isOwn =
      request.url().startsWith(served.address) || request.url().startsWith(`blob:${served.address}`);
    if (!isOwn) faults.push(`asked for ${request.url()}`);
  });
  page.on('response', (response) => {
    const isIcon = response.url().endsWith('/favicon.ico'); // asked for by the browser itself
    if (response.status() >= 400 && !isIcon) faults.push(`${response.status()} ${response.url()}`);
  });
  await page.addInitScript(() => {
    window.addEventListener('securitypolicyviolation', (event) => {
      console.error(`policy violation: ${event.violatedDirective} ${event.blockedURI}`);
    });
  });
  await page.goto(`${served.address}node_modules/evenfield/dist/package/examples/page.html`);
  return faults;
}

test('on a stranger’s page, under a strict policy and without isolation, a frame is read and another corrected', async ({
  page,
}, testInfo) => {
  const faults = await openExample(page);
  expect(await page.evaluate(() => crossOriginIsolated)).toBe(false);
  await page.getByLabel('Choose a frame…').setInputFiles(sample('sheet-off-centre.jpg'));
  await expect(page.locator('#told')).toHaveText(
    /^sheet-off-centre\.jpg: 1\.[23]\d ± 0\.\d\d stop; even: no\.$/,
    A_READING,
  );
  await expect(page.locator('.verdict')).toBeVisible();
  const subject = await subjectFrame('tumblers.jpg', 3);
  await page.getByLabel('A frame of a tumbler before the same light').setInputFiles(subject);
  const link = page.getByRole('link', { name: /^tumblers\.corrected\.png/ });
  await expect(link).toBeVisible(A_READING);
  const downloading = page.waitForEvent('download');
  await link.click();
  const picture = decode(readFileSync(await (await downloading).path()));
  expect([picture.width, picture.height, picture.depth]).toEqual([900, 600, 16]);

  // a raw file, whose decoder shares memory with nobody
  const path = testInfo.outputPath('blank.dng');
  writeFileSync(path, largeDng(1200, 800));
  await page.getByLabel('Read another frame…').setInputFiles(path);
  await expect(page.locator('#told')).toHaveText(/^blank\.dng: 1\.[12]\d ± 0\.\d\d stop/, A_READING);

  // what failed is told by event too
  await page
    .getByLabel('Read another frame…')
    .setInputFiles({ name: 'note.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') });
  await expect(page.locator('#told')).toHaveText(/^not-an-image: /);
  expect(faults).toEqual([]);
});

/** What contract.md fixes of the element. */
const MEMBERS = ['setup', 'tolerance', 'read', 'readBracket', 'profile', 'correct', 'takes'];
const EVENTS = ['evenfield-reading', 'evenfield-progress', 'evenfield-error'];

test('the manifest tells what the contract fixes, and all that it tells is there', async ({ page }) => {
  const faults = await openExample(page);
  const manifest: ElementsManifest = JSON.parse(
    readFileSync(`${installed.folder}/dist/package/custom-elements.json`, 'utf8'),
  );
  const { customElements: named } = JSON.parse(readFileSync(`${installed.folder}/package.json`, 'utf8'));
  expect(named).toBe('dist/package/custom-elements.json');
  const [module] = manifest.modules;
  readFileSync(`${installed.folder}/${module!.path}`); // is there
  const [element] = module!.declarations;
  const namesOf = (list: readonly { name: string }[]) => list.map(({ name }) => name);
  expect(namesOf(element!.members)).toEqual(expect.arrayContaining(MEMBERS));
  expect(namesOf(element!.events).sort()).toEqual([...EVENTS].sort());

  await page.evaluate((events) => {
    const heard = new Set<string>();
    Object.assign(window, { heard });
    for (const name of events) document.addEventListener(name, (event) => heard.add(event.type)); // out of every shadow
  }, namesOf(element!.events));
  const chooser = page.getByLabel(/^(Choose a|Read another) frame…/);
  const image = { name: 'note.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') };
  await chooser.setInputFiles(image);
  await expect(page.locator('#told')).toHaveText(/^not-an-image/);
  await chooser.setInputFiles(sample('nearly-perfect.png'));
  await expect(page.locator('#told')).toHaveText(/^nearly-perfect\.png/, A_READING);

  // the lower parts are drawn after the verdict, each in a task of its own
  await expect(page.getByRole('img', { name: /^Plan of the set/ })).toBeVisible();
  await expect(page.getByRole('img', { name: /Cast in the u′v′ plane/ })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Print the record…' })).toBeVisible();
  const found = await page.evaluate(
    async ({ members, parts, properties }) => {
      const bench = document.querySelector('evenfield-bench')!;
      const present = members.filter(({ name, kind }) =>
        kind === 'method'
          ? typeof (bench as unknown as Record<string, unknown>)[name] === 'function'
          : (bench as unknown as Record<string, unknown>)[name] !== undefined,
      );
      const deep = (root: ParentNode): Element[] =>
        Array.from(root.querySelectorAll('*')).flatMap((each) =>
          each.shadowRoot ? [each, ...deep(each.shadowRoot)] : [each],
        );
      const all = deep(bench.shadowRoot!);
      const styled = parts.filter((part) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(`evenfield-bench::part(${part}) { outline: 7px solid rgb(1, 2, 3) !important; }`);
        document.adoptedStyleSheets = [sheet];
        const hits = all.filter((each) => getComputedStyle(each).outlineWidth === '7px').length;
        document.adoptedStyleSheets = [];
        return hits === 1;
      });
      const sizeOf = () =>
        JSON.stringify([
          bench.getBoundingClientRect().height,
          ...all.map((each) => {
            const { color, backgroundColor, fontSize, borderTopColor, borderBottomColor, stroke, fill } =
              getComputedStyle(each);
            return [color, backgroundColor, fontSize, borderTopColor, borderBottomColor, stroke, fill];
          }),
          getComputedStyle(bench).backgroundColor,
        ]);
      const before = sizeOf();
      const heeded = properties.filter((name) => {
        const sheet = new CSSStyleSheet();
        const value = /size/.test(name) ? '41px' : /height/.test(name) ? '99999px' : 'rgb(9, 8, 7)';
        sheet.replaceSync(`evenfield-bench { ${name}: ${value}; }`);
        document.adoptedStyleSheets = [sheet];
        const after = sizeOf();
        document.adoptedStyleSheets = [];
        return after !== before;
      });
      return {
        present: present.map(({ name }) => name),
        styled,
        heeded,
        heard: [...(window as unknown as { heard: Set<string> }).heard],
      };
    },
    {
      members: element!.members.map(({ name, kind }) => ({ name, kind })),
      parts: namesOf(element!.cssParts),
      properties: namesOf(element!.cssProperties),
    },
  );
  const described = readFileSync(new URL('../../src/package/README.md', import.meta.url), 'utf8');
  expect(found.present).toEqual(namesOf(element!.members));
  expect(found.heard.sort()).toEqual([...EVENTS].sort());
  expect(found.styled).toEqual(namesOf(element!.cssParts));
  expect(found.heeded).toEqual(namesOf(element!.cssProperties));
  const all = [element!.members, element!.events, element!.attributes, element!.cssParts];
  const undescribed = [...all, element!.cssProperties]
    .flatMap(namesOf)
    .filter((name) => !described.includes(`\`${name}\``) && !described.includes(`\`${name}(`));
  expect(undescribed).toEqual([]);
  expect(faults).toEqual([]);
});
