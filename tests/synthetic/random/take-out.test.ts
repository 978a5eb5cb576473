import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_PANEL, EVEN_SET, SHEET_SET } from '../studio/even-set.ts';
import { tintedOnOneSide } from '../studio/sheet-tints.ts';
import { plainLamp, type StudioSet } from '../studio/studio-set.ts';
import { spreadEv } from './spread-ev.ts';
import { shareEv, takeOut } from './take-out.ts';

const pair: StudioSet = {
  ...SHEET_SET,
  background: { kind: 'wall' },
  lamps: [
    plainLamp({ xMm: -300, yMm: 50, aimXMm: 100, power: 2 }),
    plainLamp({ xMm: 500, yMm: 70, aimXMm: 200, power: 1, colour: { kind: 'planckian', kelvin: 3000 } }),
  ],
};

test('spreadEv(set) is the range of luminance over the cell centres', () => {
  expectWithin(spreadEv(EVEN_SET), 0, 1e-12);
  const lens = { naturalFall: false, mechanicalEv: 0.4 };
  // the outermost cell's centre: 47/48 and 31/32 of the way to the corner
  const radius = Math.hypot(300 * (47 / 48), 200 * (31 / 32)) / Math.hypot(300, 200);
  const inner = Math.hypot(300 / 48, 200 / 32) / Math.hypot(300, 200);
  expectWithin(spreadEv({ ...EVEN_SET, lens }), 0.4 * (radius ** 4 - inner ** 4), 1e-9);
});

test('takeOut(off-centre) slides lights and aims so that the middle of the feet is the frame’s', () => {
  const [left, right] = takeOut(pair, 'off-centre').lamps;
  expect([left!.xMm, right!.xMm, left!.aimXMm, right!.aimXMm]).toEqual([-400, 400, 0, 100]);
  expect([left!.yMm, right!.yMm]).toEqual([-10, 10]);
});

test('takeOut(too-close) goes back to where closeness is no fault, and keeps the level', () => {
  const near = { ...SHEET_SET, lamps: [plainLamp({ distanceMm: 400 })] };
  const far = takeOut(near, 'too-close').lamps[0]!;
  expectWithin(far.distanceMm, 1.43 * Math.hypot(near.frameWidthMm, near.frameHeightMm), 1e-9);
  expectWithin(far.power, (far.distanceMm / 400) ** 2, 1e-9);
  expect(takeOut({ ...near, lamps: [far] }, 'too-close').lamps).toEqual([far]);
  expect(takeOut(pair, 'too-close').lamps[0]!.distanceMm).toBe(Math.max(600, pair.frameWidthMm));
});

test('takeOut(aimed-off) turns lights to the nearest spot between their own foot and the middle', () => {
  const aimed = (xMm: number, yMm: number, aimXMm: number, aimYMm: number) => {
    const set = { ...SHEET_SET, lamps: [plainLamp({ xMm, yMm, aimXMm, aimYMm })] };
    const [lamp] = takeOut(set, 'aimed-off').lamps;
    return [lamp!.aimXMm + 0, lamp!.aimYMm + 0]; // never −0
  };
  expect(aimed(-300, 0, 100, 0)).toEqual([0, 0]);
  expect(aimed(-300, 0, -500, 80)).toEqual([-300, 0]);
  expect(aimed(-300, 0, -120, 80)).toEqual([-120, 0]);
  expect(aimed(0, 0, 50, 60)).toEqual([0, 0]);
});

test('takeOut(unequal-lamps) and (unequal-colour) make lights alike', () => {
  for (const lamp of takeOut(pair, 'unequal-lamps').lamps) expect(lamp.power).toBe(1.5);
  for (const lamp of takeOut(pair, 'unequal-colour').lamps) expect(lamp.colour).toBe(pair.lamps[0]!.colour);
});

test('what is laid over even light is what its taking out brings back', () => {
  const lens = { naturalFall: false, mechanicalEv: 0.4, colour: { cornerMired: 20, cornerDuv: 0 } };
  const bands = { periodLines: 200, ofLines: 800, modulation: 0.1, phaseDeg: 0, run: 'across' } as const;
  const rim = { side: 'top', reach: 0.1, level: 0.25, soft: 0.01 } as const;
  const tint = tintedOnOneSide({ mired: 40, duv: 0, towardDeg: 0, softMm: 100 });
  const spill = { level: 0.3, colour: EVEN_SET.whiteBalance, slopeEv: 1, towardDeg: 0 };
  for (const [kind, set] of [
    ['lens-falloff', { ...EVEN_SET, lens }],
    ['bands', { ...EVEN_SET, bands }],
    ['rim-in-view', { ...EVEN_SET, rim }],
    ['tinted-on-one-side', { ...EVEN_SET, background: { ...EVEN_SET.background, tint } }],
    ['stray-light', { ...EVEN_SET, spill }],
    ['hot-spot', { ...EVEN_SET, background: { ...EVEN_PANEL, middleEv: 0.5 } }],
  ] as const) {
    expect(spreadEv(set), kind).toBeGreaterThan(0.04);
    expectWithin(shareEv(set, kind)!, spreadEv(set), 2e-4); // the lens's tint may move luminance by its last figure
  }
});

test('creases, weave and dust leave no trace when taken out, and have no share', () => {
  const texture = {
    creases: [{ xMm: 0, yMm: 0, angleDeg: 0, widthMm: 3, depthEv: -0.1 }],
    weave: { pitchRightMm: 3, pitchDownMm: 3, rangeEv: 0.1 },
    dust: [{ xMm: 0, yMm: 0, radiusMm: 3, depthEv: 0.2 }],
  };
  const set: StudioSet = { ...EVEN_SET, texture };
  expect(takeOut(set, 'creases').texture).toEqual({ ...texture, creases: [] });
  expect(takeOut(set, 'specks').texture).toEqual({ ...texture, dust: [] });
  expect(takeOut(set, 'weave').texture?.weave).toBeUndefined();
  for (const kind of ['creases', 'weave', 'specks'] as const) expect(shareEv(set, kind)).toBeNull();
  expectWithin(spreadEv(set), 0, 1e-12);
});
