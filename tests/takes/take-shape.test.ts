import { describe, expect, test } from 'vitest';
import type { Aim } from '../../src/engine/aim.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import { type FrameReport, readFrame, rejudge } from '../../src/engine/read-frame.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { heldSecondFrame } from '../../src/takes/second-frames.ts';
import { partsOf } from '../../src/takes/shelved-take.ts';
import { fromJson, toJson } from '../../src/takes/structured-json.ts';
import { type FullTake, judgedAnew } from '../../src/takes/take.ts';
import { TAKE_FACTS, takeEvidence } from '../../src/takes/take-shape.ts';
import { flat, painted } from '../engine/painted-frames.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { nodePlatform } from '../node-platform.ts';
import { dngOf } from '../synthetic/bayer-mosaic.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { exposedBy, randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { wholeTake } from './whole-take.ts';

const KNOWN: Setup = {
  ...UNKNOWN_SETUP,
  ...{
    light: 'continuous',
    frameWidthMm: 900,
    lampDistanceMm: [1100, null],
    lampWidthMm: 300,
    cameraDistanceMm: 2400,
  },
  room: { leftMm: 500, rightMm: 500, upMm: 300, downMm: 0, reachMm: 2000 },
};
const AIMS: readonly Aim[] = [
  { kind: 'even' },
  { kind: 'clean-white', whiteCode: null, mostOverEv: 0.3 },
  { kind: 'ramp', angleDeg: 20, ev: 0.7 },
];

/** Warmer to one side and large enough that a set is fitted. */
const FIELD = randomField(5, { spreadEv: 0.9 }).field;
const rendered = (stops = 0) =>
  renderFrame(exposedBy(FIELD, stops), {
    ...{ widthPx: 72, heightPx: 56, bits: 8, curve: 'srgb', electronsAtFull: 30_000, seed: 5 },
  });

const read = (bytes: Uint8Array, setup: Setup, more: object = {}): Promise<FrameReport> =>
  readFrame([{ name: 'a.png', bytes }], { setup, tolerance: DEFAULT_TOLERANCE, ...more }, nodePlatform);

/** Whether a take passes as it is put into a file and comes back from it. */
function passes(take: FullTake): readonly [boolean, boolean] {
  const { facts, judged } = fromJson(toJson(partsOf(take, true))) as ReturnType<typeof partsOf>;
  const { columns, rows } = facts.figures.grid;
  return [TAKE_FACTS(facts), takeEvidence(columns * rows)(judged!.evidence)];
}

describe('a take passes as what it is:', () => {
  for (const arrangement of ['behind-sheet', 'bounced', 'two-lamps', 'panel'] as const)
    test(`one of a set of the kind ${arrangement}, for every aim, with its second frame`, async () => {
      const setup = { ...KNOWN, arrangement };
      const report = await read(toPng(rendered()), setup);
      expect(report.set).not.toBeNull();
      const dark = await read(toPng(rendered(-4)), setup, { role: { kind: 'lamp-off' } });
      const second = heldSecondFrame({ kind: 'lamp-off' }, dark);
      for (const aim of AIMS) {
        const by = { setup, tolerance: DEFAULT_TOLERANCE, aim, secondFrames: [second] };
        const judged =
          aim.kind === 'even' ? rejudge(report, by) : rejudge(report, { ...by, secondFrames: [] });
        const plain = { ...wholeTake('take-1', 'a note', 5, report), setup, done: judged.reading.moves };
        const judgedBy = { setup, tolerance: DEFAULT_TOLERANCE, aim, after: ['take-0'] };
        const { moves, predicted } = judged.reading;
        const take = {
          ...plain,
          secondFrames: [second],
          foretold: { moves, predicted },
          measuredMm: [900, null],
        };
        expect(passes(judgedAnew(take, judged, judgedBy))).toEqual([true, true]);
      }
    });

  test.each([
    ['flat', () => toPng(flat(180))],
    ['of few cells', () => toPng(flat(128, 8, 16, 16))],
    ['clipped in part', () => toPng(painted(96, 64, 8, (x) => Math.min(255, 200 + x)))],
    ['of one primary', () => toPng(painted(96, 64, 16, (_x, _y, c) => (c === 2 ? 40_000 : 200)))],
    ['with something in it', () => toPng(painted(96, 64, 8, (x, y) => (x < 20 && y < 16 ? 20 : 180)))],
    [
      'a JPEG',
      () => toJpeg(rendered(), { quality: 90, chroma: '4:2:0', exif: { iso: 100, model: 'Model A' } }),
    ],
  ] as const)('a frame that is %s', async (_, bytes) => {
    expect(passes(wholeTake('take-1', '', 0, await read(await bytes(), UNKNOWN_SETUP)))).toEqual([
      true,
      true,
    ]);
  });
});

describe('an unusual take passes as what it is:', () => {
  const unknown = (report: FrameReport) => wholeTake('take-1', '', 0, report);

  test('one of a raw file', async () => {
    const sensor = { widthPx: 96, heightPx: 64, order: 'RGGB', bits: 14, white: 15_000, seed: 2 } as const;
    const black = { rows: 1, columns: 1, levels: [512] };
    const facts = { exposureTime: 1 / 60, fNumber: 5.6, iso: 200, camera: 'Camera 5' };
    const report = await read(dngOf(FIELD, { ...sensor, black }, facts), UNKNOWN_SETUP);
    expect(report.reading.frame.light).toBe('scene-linear');
    expect(passes(unknown(report))).toEqual([true, true]);
  });

  test('one averaged of several frames', async () => {
    const bytes = toPng(rendered());
    const frames = ['a', 'b'].map((name) => ({ name, bytes }));
    const by = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };
    const report = await readFrame(frames, by, nodePlatform);
    expect(report.reading.frame.averagedFrames).toBe(2);
    expect(passes(unknown(report))).toEqual([true, true]);
  });

  test('one read by a camera’s response', async () => {
    const exif = { colourSpace: 1, model: 'Model A' } as const;
    const bytes = await toJpeg(rendered(), { quality: 95, chroma: '4:4:4', exif });
    const response = responseOf(toneCurve(1.5));
    const report = await read(bytes, UNKNOWN_SETUP, { response });
    expect(report.readBy.response).not.toBeNull();
    expect(passes(unknown(report))).toEqual([true, true]);
  });

  test.each([
    { kind: 'shifted', rightFrameWidths: 1 / 3, downFrameWidths: 0 },
    { kind: 'stopped-down', stops: 2 },
  ] as const)('one with a second frame that is $kind', async (role) => {
    const setup = { ...KNOWN, arrangement: 'behind-sheet' } as const;
    const second = heldSecondFrame(role, await read(toPng(rendered(-0.5)), setup, { role }));
    const report = await read(toPng(rendered()), setup, { secondFrames: [second] });
    expect(report.fittedWith.secondFrames).toHaveLength(1);
    expect(passes({ ...unknown(report), setup, secondFrames: [second] })).toEqual([true, true]);
  });

  test('one that is mostly clipped, so that no block is left for a set', async () => {
    const blown = painted(384, 256, 8, (x, y) => (x % 32 < 8 && y % 32 < 8 ? 250 : 255));
    const report = await read(toPng(blown), UNKNOWN_SETUP);
    expect(report.samples.levelEv).toBe(Number.NEGATIVE_INFINITY);
    expect(passes(unknown(report))).toEqual([true, true]);
  });

  test('one after moves of which no more was said than what was moved', () => {
    const done = [{ kind: 'balance-lamps', lamp: 0, stops: 1 }] as unknown as readonly Move[];
    const take = wholeTake('take-1');
    expect(passes({ ...take, done, movedSince: { done, measuredMm: [] } })).toEqual([true, true]);
    const odd = [{ ...done[0]!, caution: 5 }] as unknown as readonly Move[];
    expect(passes({ ...take, done: odd })).toEqual([false, true]);
  });
});

test('a take passes whose findings have their lengths, none, or no list as before there were any', () => {
  const { facts } = partsOf(wholeTake('take-1'), true);
  const finding = { kind: 'off-centre', confidence: 0.9, ev: 0.2, mired: null, at: null, says: '' };
  const withFinding = (more: object) =>
    TAKE_FACTS({ ...facts, figures: { ...facts.figures, findings: [{ ...finding, ...more }] } });
  for (const more of [{ lengthsMm: [64.9, 0.4] }, { lengthsMm: null }, {}])
    expect(withFinding(more)).toBe(true);
  for (const lengthsMm of [64.9, ['64.9'], [null]]) expect(withFinding({ lengthsMm })).toBe(false);
});

test('what is no take does not pass', () => {
  expect([null, undefined, 5, [], {}].map((value) => TAKE_FACTS(value))).toEqual(Array(5).fill(false));
  const { facts, judged } = partsOf(wholeTake('take-1'), true);
  const { falloff, ...without } = facts.figures;
  expect(TAKE_FACTS({ ...facts, figures: without })).toBe(false);
  expect(
    TAKE_FACTS({ ...facts, figures: { ...facts.figures, falloff: { ...falloff, spreadEv: '1' } } }),
  ).toBe(false);
  expect(TAKE_FACTS({ ...facts, setup: { ...facts.setup, arrangement: 'outdoors' } })).toBe(false);
  expect(takeEvidence(24)(judged!.evidence)).toBe(true);
  expect(takeEvidence(25)(judged!.evidence)).toBe(false);
  expect(takeEvidence(24)({ ...judged!.evidence, level: null })).toBe(false);
});
