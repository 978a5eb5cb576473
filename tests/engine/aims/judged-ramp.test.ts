import { describe, expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { HEIGHT, WIDTH } from '../blank-render.ts';
import { aimedOf, measuredField } from './aimed-frame.ts';

const TALL = HEIGHT / WIDTH;

/** So many stops from corner to corner towards an angle, in square-pixel coordinates, and something added. */
function ramp(angleDeg: number, ev: number, more: (x: number, y: number) => number = () => 0): KnownField {
  const angle = (angleDeg * Math.PI) / 180;
  const [right, down] = [Math.cos(angle), Math.sin(angle)];
  const reach = Math.abs(right) / 2 + (Math.abs(down) * TALL) / 2;
  return (x, y) => {
    const along = ((x - 0.5) * right + (y - 0.5) * TALL * down) / reach;
    const light = 0.5 * 2 ** ((ev / 2) * (along - 1) + more(x, y));
    return [light, light, light];
  };
}

describe('judgedRamp', () => {
  test.each([
    [0, 2],
    [90, 1.5],
    [315, 2.5],
    [200, 0.6],
  ])('leaves nothing over of an exact ramp at %d° of %d stops', async (angleDeg, ev) => {
    const aimed = aimedOf({ kind: 'ramp', angleDeg, ev }, await measuredField(ramp(angleDeg, ev)));
    console.log(`measured: left over of an exact ramp: ${aimed.leftOver.spreadEv} EV`);
    // a cell's mean of light lies above that of its logarithm alike in all cells, but for smoothing at the corners
    expectWithin(aimed.leftOver.spreadEv, 0, 0.002);
    expectWithin(aimed.turnDeg!, 0, 0.05);
    expectWithin(aimed.moreEv, 0, 0.001);
    expect(aimed.verdict).toBe('yes');
  });

  test('tells what a bend leaves over', async () => {
    // half a wave of 0.2 stop across the frame, over a ramp of 2 stops up
    const bent = ramp(270, 2, (x) => -0.2 * Math.cos(2 * Math.PI * x));
    const aimed = aimedOf({ kind: 'ramp', angleDeg: 270, ev: 2 }, await measuredField(bent));
    expectWithin(aimed.leftOver.spreadEv, 0.4, 0.005);
    expectWithin(aimed.leftOver.brightestAt.x, 0.5, 0.03);
    expectWithin(aimed.turnDeg!, 0, 0.1);
    expect(aimed.verdict).toBe('no');
  });

  test('tells a ramp that is turned, the shorter way round, and one that is too strong', async () => {
    const frame = await measuredField(ramp(350, 2));
    const turned = aimedOf({ kind: 'ramp', angleDeg: 10, ev: 2 }, frame);
    expectWithin(turned.turnDeg!, -20, 0.05);
    expectWithin(aimedOf({ kind: 'ramp', angleDeg: 340, ev: 2 }, frame).turnDeg!, 10, 0.05);
    const stronger = aimedOf({ kind: 'ramp', angleDeg: 350, ev: 1.5 }, frame);
    expectWithin(stronger.moreEv, 0.5, 0.001);
    // what the ramp has too much is left over
    expectWithin(stronger.leftOver.spreadEv, 0.5, 0.02);
    expect(stronger.verdict).toBe('no');
  });

  test('says that it is too close where the limit lies inside the ±', async () => {
    const bent = ramp(270, 1, (x) => -0.15 * Math.cos(2 * Math.PI * x));
    const frame = await measuredField(bent, { electronsAtFull: 100 });
    const aimed = aimedOf({ kind: 'ramp', angleDeg: 270, ev: 1 }, frame);
    expect(aimed.verdict).toBe('too-close-to-say');
  });

  test('has no direction to tell of a frame that has none', async () => {
    const even = await measuredField(() => [0.4, 0.4, 0.4], { electronsAtFull: 1000 });
    const aimed = aimedOf({ kind: 'ramp', angleDeg: 0, ev: 2 }, even);
    expect(aimed).toMatchObject({ turnDeg: null, turnPlusMinusDeg: null, verdict: 'no' });
    expectWithin(aimed.leftOver.spreadEv, 2, 0.05);
  });
});
