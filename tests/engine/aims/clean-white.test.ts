import { describe, expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { toJpeg } from '../../synthetic/encode.ts';
import { exposedBy, type KnownField } from '../../synthetic/known-field.ts';
import { render } from '../blank-render.ts';
import { measureBytes } from '../known-frames.ts';
import { aimedOf, measuredField } from './aimed-frame.ts';

const CLEAN = { kind: 'clean-white', whiteCode: null, mostOverEv: 1 } as const;
/** From 2^low at the left to 2^high at the right, straight in stops. */
const ramp =
  (low: number, high: number): KnownField =>
  (x) => {
    const light = 2 ** (low + (high - low) * x);
    return [light, light, light];
  };
/** What of a ramp's range a grid's outermost smoothed cells leave out: half a cell at each end. */
const CELL = 1 / 60;

describe('cleanWhite: how much of a known field is paper white as shot', () => {
  test.each([
    ['0.3 of it', -0.7, 0.3],
    ['0.75 of it', -0.5, 1.5],
    ['nearly all of it', -0.06, 0.6],
    ['none of it', -1.2, -0.6],
  ])('%s, within 1 %%', async (_what, low, high) => {
    const share = Math.max(0, Math.min(1, high / (high - low)));
    for (const options of [{}, { electronsAtFull: 20_000 }]) {
      const aimed = aimedOf(CLEAN, await measuredField(ramp(low, high), options));
      console.log(`measured: paper white on ${aimed.reachedShare} of the cells, truly ${share}`);
      expectWithin(aimed.reachedShare, share, 0.01);
      expect(aimed.reachedShareLeast).toBeLessThanOrEqual(aimed.reachedShare);
      expect(aimed.reachedShareMost).toBeGreaterThanOrEqual(aimed.reachedShare);
    }
  });

  test('with a ± also where the frame clips in part and is noisy', async () => {
    const aimed = aimedOf(CLEAN, await measuredField(ramp(-0.12, 0.08), { electronsAtFull: 5000 }));
    const { reachedShareLeast: least, reachedShareMost: most } = aimed;
    console.log(`measured: paper white on ${least} to ${most} of the cells, truly 0.4`);
    expect(least).toBeLessThan(aimed.reachedShare);
    expect(most).toBeGreaterThan(aimed.reachedShare);
    expect(least).toBeLessThanOrEqual(0.4);
    expect(most).toBeGreaterThanOrEqual(0.4);
  });

  test('from a level of one’s own on, below clipping', async () => {
    // 188 of 255 in linear light is 0.44 stop below white
    const aim = { ...CLEAN, whiteCode: 188 };
    const aimed = aimedOf(aim, await measuredField(ramp(-1.4, -0.1)));
    expectWithin(aimed.reachedShare, (-0.1 - Math.log2(188 / 255)) / 1.3, 0.01);
    expectWithin(aimed.changeEv!, 1.4 + Math.log2(188 / 255), 1.3 * CELL);
  });

  test('needs every channel of it: warm light is not white where red alone clips', async () => {
    const warm: KnownField = (x) => [1.2, 1, 0.8].map((of) => of * 2 ** (0.6 * (x - 0.5))) as never;
    const aimed = aimedOf(CLEAN, await measuredField(warm));
    // red clips from 0.06 of the frame on
    expect(aimed.reachedShare).toBe(0);
    expectWithin(aimed.changeEv!, 0.3 - Math.log2(0.8), 0.01);
  });

  test('in a JPEG, whose rounding lets white come back a code lower', async () => {
    // code 254, which counts as clipped there, is 0.013 stop below white
    const bytes = await toJpeg(render(ramp(-0.5, 0.5), { bits: 8 }), { quality: 92, chroma: '4:2:0' });
    expectWithin(aimedOf(CLEAN, await measureBytes(bytes, 'blank.jpg')).reachedShare, 0.5, 0.02);
  });
});

describe('cleanWhite: the change that brings the darkest to it, and how far the hottest is then over', () => {
  test.each([
    [-1.6, -1, 'yes'],
    [-2.4, -0.9, 'no'],
  ] as const)('of a field from %d to %d: %s', async (low, high, verdict) => {
    const field = ramp(low, high);
    const aimed = aimedOf(CLEAN, await measuredField(field));
    expectWithin(aimed.changeEv!, -low, (high - low) * CELL);
    expectWithin(aimed.overEv!, high - low, 2 * (high - low) * CELL);
    expect(aimed).toMatchObject({ verdict, isOverAtLeast: false });
    // the same scene with so much more light, but for a tenth of a stop (a frame that clips all over tells nothing)
    const brought = aimedOf(CLEAN, await measuredField(exposedBy(field, aimed.changeEv! - 0.1)));
    expectWithin(brought.reachedShare, 1 - 0.1 / (high - low), 0.015);
  });

  test('too close to say where the limit lies inside the ±, as in a camera’s JPEG', async () => {
    const bytes = await toJpeg(render(ramp(-2, -1.1), { bits: 8 }), { quality: 92, chroma: '4:4:4' });
    const aimed = aimedOf(CLEAN, await measureBytes(bytes, 'blank.jpg'));
    expect(aimed.verdict).toBe('too-close-to-say');
    expect(aimed.overPlusMinusEv).toBeGreaterThan(0.1);
    expect(aimed.changePlusMinusEv).toBeGreaterThan(0.1);
  });

  test('bounds only where the frame is clipped', async () => {
    const partly = aimedOf(CLEAN, await measuredField(ramp(-0.6, 0.2)));
    expect(partly).toMatchObject({ isOverAtLeast: true, verdict: 'too-close-to-say' });
    expect(partly.overEv!).toBeLessThan(0.62);
    expect(aimedOf(CLEAN, await measuredField(ramp(-1.6, 0.2)))).toMatchObject({ verdict: 'no' });
  });

  test('too close to say, without figures, where a channel has no light; bounds where it has none in part', async () => {
    const frame = await measuredField(ramp(-1.2, -0.9));
    const dark = (isDark: (i: number) => boolean) => {
      const blue = frame.grid.light.blue.map((light, i) => (isDark(i) ? 0 : light));
      return aimedOf(CLEAN, { ...frame, grid: { ...frame.grid, light: { ...frame.grid.light, blue } } });
    };
    expect(dark(() => false)).toMatchObject({ verdict: 'yes', isUnlitInPart: false });
    const all = dark(() => true);
    expect(all).toMatchObject({ verdict: 'too-close-to-say', changeEv: null, overEv: null });
    const part = dark((i) => i % frame.grid.columns < 6);
    expect(part.isUnlitInPart).toBe(true);
    expect(part.verdict).not.toBe('yes');
    for (const figure of [part.changeEv, part.overEv]) expect(figure).toSatisfy(Number.isFinite);
  });
});
