import { expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { openToCorrect, previewCorrection } from '../../src/engine/preview-correction.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { codedLight, sceneLight } from '../synthetic/subject-scene.ts';
import { opaque, roundBox } from '../synthetic/subjects.ts';
import { readBytes } from './known-frames.ts';

const { field } = randomField(4101, { family: 'quadratic', spreadEv: 1, peak: 0.7 });
const size = { widthPx: 1200, heightPx: 800 };
const coding = { ...size, bits: 16, curve: 'srgb', electronsAtFull: 30_000 } as const;

function frame(hasSubject: boolean, seed: number, exposedEv = 0) {
  const body = opaque(roundBox(600, 420, 150, 210, 60), [0.05, 0.08, 0.2]);
  const { light } = sceneLight({ field, ...size, subjects: hasSubject ? [body] : [] });
  return codedLight(light, { ...coding, seed, exposedEv });
}

const blankBytes = toPng(frame(false, 1));
const open = (bytes: Uint8Array) => openToCorrect({ name: 'tumbler.png', bytes }, nodePlatform);
const profile = makeProfile(await readBytes(blankBytes));
const blank = await open(blankBytes);
const tumbler = await open(toPng(frame(true, 2)));

test('previewCorrection(frame, profile) shows both pictures in small, and the background even after it', () => {
  const preview = previewCorrection(tumbler, profile, {}, blank);
  expect([preview.widthPx, preview.heightPx]).toEqual([720, 480]);
  expect(preview.before.rgba).toHaveLength(720 * 480 * 4);
  const { before, after } = preview.background!;
  console.log(
    `measured: background in small from ${before.spreadEv.toFixed(3)} to ${after.spreadEv.toFixed(4)} EV`,
  );
  expect(before.spreadEv).toBeGreaterThan(0.4);
  expect(after.spreadEv).toBeLessThan(0.02);
  // the corners themselves, from the codes that are shown
  const corner = (rgba: Uint8ClampedArray, x: number, y: number) => rgba[(y * 720 + x) * 4 + 1]!;
  const corners = [
    [10, 10],
    [709, 10],
    [10, 469],
    [709, 469],
  ] as const;
  const codes = corners.map(([x, y]) => corner(preview.after.rgba, x, y));
  expect(Math.max(...codes) - Math.min(...codes)).toBeLessThanOrEqual(4);
  expect(preview.flags).toEqual([]);
  // matte: the subject in the middle, background at the corner
  expect(preview.backgroundAt![240 * 720 + 360]).toBe(0);
  expect(preview.backgroundAt![5 * 720 + 5]).toBe(1);
});

test('previewCorrection(frame, profile, { treat: "background-only" }) leaves the subject as it was', () => {
  const preview = previewCorrection(tumbler, profile, { treat: 'background-only', levelEv: 0.2 }, blank);
  const at = 252 * 720 + 360;
  expect(Math.abs(preview.after.stops[at]! - preview.before.stops[at]!)).toBeLessThan(0.001);
  expect(preview.after.stops[10 * 720 + 10]).toBeCloseTo(-0.2, 1);
});

test('previewCorrection(frame, profile, { brush }) heeds what a stroke says', () => {
  const brush = [{ makes: 'subject', points: [{ x: 0.1, y: 0.1 }], radius: 0.05 }] as const;
  const preview = previewCorrection(tumbler, profile, { treat: 'background-only', brush }, blank);
  expect(preview.backgroundAt![48 * 720 + 72]).toBe(0);
});

test('previewCorrection(frame, profile) tells clipped pixels of the file from those beyond white', async () => {
  const lifted = previewCorrection(tumbler, profile, { levelEv: -0.5 }, blank);
  expect(lifted.clippedBefore).toBe(0);
  expect(lifted.clippedByGains).toBeGreaterThan(0.7 * 1200 * 800);
  expect(lifted.clipped[5]).toBe(2);
  const burnt = previewCorrection(await open(toPng(frame(true, 3, 1))), profile, {}, blank);
  expect(burnt.clippedBefore).toBeGreaterThan(1000);
  const share = burnt.clipped.filter((kind) => kind === 1).length / burnt.clipped.length;
  expect(Math.abs(share - burnt.clippedBefore / (1200 * 800))).toBeLessThan(0.02);
});

test('previewCorrection(frame, profile, { levelEv }) foretells what a noisy file clips', async () => {
  // 2.5 % of noise at white, which a picture in small averages out
  const large = { widthPx: 1800, heightPx: 1200 };
  const noisy = (hasSubject: boolean, seed: number) => {
    const body = opaque(roundBox(900, 600, 200, 280, 60), [0.05, 0.08, 0.2]);
    const { light } = sceneLight({ field, ...large, subjects: hasSubject ? [body] : [] });
    return toPng(codedLight(light, { ...coding, ...large, electronsAtFull: 1600, seed }));
  };
  const [blankOfIt, bytes] = [noisy(false, 11), noisy(true, 12)];
  const made = makeProfile(await readBytes(blankOfIt));
  const [opened, openedBlank] = [await open(bytes), await open(blankOfIt)];
  for (const treat of ['everything', 'background-only'] as const) {
    const options = { treat, levelEv: 0.05 };
    const foretold = previewCorrection(opened, made, options, openedBlank).clippedByGains;
    const { clippedPixels } = await correctFrame(
      { name: 'tumbler.png', bytes },
      made,
      { ...options, bits: 8, blank: { name: 'blank.png', bytes: blankOfIt } },
      nodePlatform,
    );
    console.log(`measured: ${treat}: ${foretold} pixels foretold to clip, ${clippedPixels} did`);
    expect(clippedPixels).toBeGreaterThan(20_000);
    expectWithin(foretold / clippedPixels, 1, 0.04);
  }
});

test('openToCorrect(file) turns the frame upright, and the preview says that it was held otherwise', async () => {
  const bytes = await toJpeg(
    { ...frame(true, 4), bits: 8, samples: Uint8Array.from(frame(true, 4).samples, (code) => code >> 8) },
    { quality: 95, chroma: '4:4:4', exif: { orientation: 6 } },
  );
  const opened = await open(bytes);
  const { widthPx, heightPx } = opened.small.frame;
  expect([widthPx, heightPx]).toEqual([480, 720]);
  expect([opened.known.widthPx, opened.known.heightPx]).toEqual([800, 1200]);
  const preview = previewCorrection(opened, profile, {}, null);
  expect(preview.background).toBeNull();
  expect(preview.backgroundAt).toBeNull();
  expect(preview.flags.join(' ')).toContain('turned by a quarter');
});

test('gains of places far apart differ more', () => {
  const { displaced } = previewCorrection(tumbler, profile, {}, null);
  const ev = displaced.map((each) => each.ev);
  expect(ev).toEqual([...ev].sort((a, b) => a - b));
  expect(ev[0]).toBeGreaterThan(0);
});
