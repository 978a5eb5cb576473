import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { pngOnPaper } from '../../src/plots/files/picture-png.ts';
import { type PlottedTake, plotFiles } from '../../src/screen/plot-files.ts';
import { plotPage } from '../../src/screen/plot-pages.ts';
import { PLOT_FILE_WORDS, PLOT_TITLES, type PlotFile } from '../../src/screen/words/plot-file-words.ts';
import type { FullTake } from '../../src/takes/take.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { foundLight } from '../plots/found-sets.ts';
import { readingFixture } from '../plots/reading-fixture.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { heldTake } from '../takes/held-take.ts';

const NAME = 'tumblers <1> & "glass" ’s.jpg';
const SETUP = { ...UNKNOWN_SETUP, frameWidthMm: 900, lampDistanceMm: [1100] };

function take(id: string, slope: number): FullTake {
  const plain = readingFixture(
    {
      ev: (x, y) =>
        Math.hypot(x - 0.8, y - 0.2) < 0.08 ? null : -slope * (x - 0.3) ** 2 - 0.4 * (y - 0.5) ** 2,
      tint: (x, y) => [0.006 * x, -0.004 * y],
    },
    {
      moves: [
        {
          kind: 'slide-lamp',
          lamp: 0,
          rightMm: 200,
          downMm: 0,
          rightFrameWidths: null,
          downFrameWidths: null,
          bringsEv: 0.3,
          toward: 0,
          caution: null,
        },
      ],
      predicted: { spreadEv: 0.3, plusMinusEv: 0.1, tintDeltaUv: 0.002 },
    },
  );
  const reading = { ...plain, frame: { ...plain.frame, name: NAME } };
  const { columns, rows } = reading.grid;
  const report = {
    ...heldTake(id).report,
    reading,
    grid: { highlightShare: new Float64Array(columns * rows) },
    readBy: { camera: null, response: responseOf(toneCurve(1.4)) },
    set: { lights: [foundLight()], stray: null, found: [] },
    isSetTrusted: true,
    fittedWith: { setup: SETUP },
  } as unknown as FullTake['report'];
  return { ...heldTake(id), report, reading, setup: SETUP, note: 'grid cloth' };
}

const takes = [take('take-1', 1.6), take('take-2', 0.9)];
const OF: PlottedTake = { take: takes[1]!, takes, tolerance: DEFAULT_TOLERANCE, unit: 'cm' };
const ALL = Object.keys(PLOT_FILE_WORDS) as PlotFile[];

/** As it is, but one pixel a unit: this renderer scales what is told in millimetres by its density twice. */
const inPixels = (svg: string) => Buffer.from(svg.replace(/width="[\d.]+mm" height="[\d.]+mm"/, ''));

/** Greys of a page as a renderer of its own draws it; it reads XML strictly, and throws where it is none. */
async function greysOf(svg: string): Promise<Buffer> {
  return sharp(inPixels(svg)).greyscale().raw().toBuffer();
}

/** Colours far from grey and from each other, for as many labels as a page has. */
const INKS = [0, 1, 2, 3]
  .flatMap((r) => [0, 1, 2, 3].flatMap((g) => [0, 1, 2, 3].map((b) => [r * 85, g * 85, b * 85] as const)))
  .filter(([r, g, b]) => Math.max(r, g, b) - Math.min(r, g, b) > 84);

/** The labels of which no stroke is seen where each is set in an ink of its own. */
async function unseenLabels(svg: string): Promise<string[]> {
  const labels: string[] = [];
  const inked = svg.replace(TEXTS, (label, words: string) => {
    labels.push(words);
    return label.replace('<text', `<text fill="rgb(${INKS[labels.length - 1]!.join(',')})"`);
  });
  const pixels = await sharp(inPixels(inked), { density: 144 }).removeAlpha().raw().toBuffer();
  const seen = new Set<number>();
  for (let at = 0; at < pixels.length; at += 3) {
    const [r, g, b] = [pixels[at]!, pixels[at + 1]!, pixels[at + 2]!];
    if (Math.max(r, g, b) - Math.min(r, g, b) < 50) continue;
    const near = INKS.findIndex(
      (ink) => Math.abs(ink[0] - r) + Math.abs(ink[1] - g) + Math.abs(ink[2] - b) < 24,
    );
    if (near >= 0) seen.add(near);
  }
  return labels.filter((words, i) => words.trim() !== '' && !seen.has(i));
}

const TEXTS = /<text[^>]*>([^<]*)<\/text>/g;

describe.each(ALL)('the file of %s', (file) => {
  const { svg, width, height } = plotPage(file, OF);

  test('is whole in itself: a title with the take’s name, and nothing from elsewhere', () => {
    expect(svg).toContain(`<title id="title">${PLOT_TITLES[file]}`);
    expect(svg).toContain('tumblers &lt;1&gt; &amp; &quot;glass&quot; ’s.jpg');
    const addresses = [
      ...svg.matchAll(/(?:href|src)="([^"]*)"|url\(([^)]*)\)|@import|<style|<script|<foreignObject/g),
    ];
    for (const [whole, href, url] of addresses)
      expect(href?.startsWith('data:image/png;base64,') || url?.startsWith('#'), whole.slice(0, 80)).toBe(
        true,
      );
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', '')).not.toMatch(/https?:/);
    // what is pointed at is there
    for (const [, id] of svg.matchAll(/url\(#([^)]*)\)/g)) expect(svg).toContain(`id="${id}"`);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('is drawn by another renderer, with every label of it inside', async () => {
    expect(svg).toContain(`width="${width / 4}mm" height="${height / 4}mm"`);
    expect(await sharp(inPixels(svg)).metadata()).toMatchObject({ width, height });
    expect(await unseenLabels(svg)).toEqual([]);
    const withoutLabels = await greysOf(svg.replace(TEXTS, ''));
    const dark = withoutLabels.reduce((sum, grey) => sum + Number(grey < 128), 0);
    const labels = [...svg.matchAll(TEXTS)].length;
    console.log(
      `measured: ${file}: ${labels} labels, ${dark} dark pixels of ${withoutLabels.length} beside them`,
    );
    expect(labels).toBeGreaterThan(3);
    expect(dark).toBeGreaterThan(300);
  });

  test('is legible in black and white: nothing hangs on colour but the picture under the lines', () => {
    const colours = new Set(
      [...svg.matchAll(/(?:fill|stroke|stop-color)="(#[^"]*)"/g)].map(([, colour]) => colour),
    );
    expect([...colours].filter((colour) => !['#000', '#fff', '#777'].includes(colour!))).toEqual([]);
  });
});

test('only plots that there are can be chosen', () => {
  expect(plotFiles(OF)).toEqual(ALL);
  const first = takes[0]!;
  const alone = { ...first, report: { ...first.report, readBy: { camera: null, response: null } } };
  expect(plotFiles({ ...OF, take: alone, takes: [alone] })).toEqual([
    'light',
    'tint',
    'sections',
    'plan',
    'cast',
    'takes',
  ]);
  expect(() => plotPage('response', { ...OF, take: alone })).toThrow(RangeError);
  expect(() => plotPage('difference', { ...OF, take: alone, takes: [alone] })).toThrow(RangeError);
});

test('a note of odd letters and a very long name stay inside the page', async () => {
  const odd = { ...takes[1]!, note: `\u0000\u000b]]>&lt;${'\ud800'}${'ä'.repeat(300)}` };
  const { svg, width } = plotPage('cast', { ...OF, take: odd, takes: [takes[0]!, odd] });
  await greysOf(svg);
  expect(width).toBeLessThan(460);
});

test('the picture under a map is the map’s own cells', async () => {
  const { svg } = plotPage('light', OF);
  const coded = /base64,([^"]*)/.exec(svg)![1]!;
  const picture = await sharp(Buffer.from(coded, 'base64')).raw().toBuffer({ resolveWithObject: true });
  expect(picture.info).toMatchObject({ width: 48, height: 32, channels: 4 });
  expect(picture.data.filter((_, i) => i % 4 === 3).filter((alpha) => alpha === 0).length).toBeGreaterThan(5); // the hole
});

test('a PNG says how large it is on paper', async () => {
  const plain = await sharp({ create: { width: 30, height: 20, channels: 3, background: '#888' } })
    .png()
    .toBuffer();
  const placed = await sharp(pngOnPaper(plain, 300 / 25.4)).metadata();
  expect(placed).toMatchObject({ width: 30, height: 20, density: 300 });
});

test('a label that lies outside the page is missed', async () => {
  const { svg } = plotPage('cast', OF);
  expect(await unseenLabels(svg.replace('<text', '<text dx="-5000"'))).toHaveLength(1);
});
