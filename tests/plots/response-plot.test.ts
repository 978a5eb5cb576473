import { expect, test } from 'vitest';
import { srgbResponse } from '../../src/engine/response/srgb-response.ts';
import { responsePlot } from '../../src/plots/response-plot.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { expectWithin } from '../expect-within.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';

const SIZE = { width: 460, height: 300 };

/** The points of a path of straight pieces. */
const points = (path: string) =>
  [...path.matchAll(/[ML]?(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

test('responsePlot(response) draws codes across and stops up, to the scale of its axes', () => {
  const response = responseOf(toneCurve(1.4));
  const { curves, codeTicks, stopTicks, left, right, top, foot } = responsePlot(response, SIZE);
  expect(curves).toHaveLength(1); // channels alike are one line
  expect(curves[0]!.channels).toEqual(['red', 'green', 'blue']);
  const [first, last] = [codeTicks[0]!, codeTicks.at(-1)!];
  expect([first.at, last.at]).toEqual([left, right]);
  const perCode = (last.at - first.at) / 255;
  const perStop = (stopTicks[0]!.at - stopTicks[1]!.at) / (stopTicks[0]!.stops - stopTicks[1]!.stops);
  const zero = stopTicks.find(({ stops }) => stops === 0)!.at;
  expect(zero).toBe(top);
  for (const [x, y] of points(curves[0]!.path)) {
    const code = Math.round((x - left) / perCode);
    expectWithin(y, zero + perStop * response.channels.green[code]!, 0.06);
    expect(y).toBeLessThanOrEqual(foot + 0.1);
  }
});

test('responsePlot(response) tells what was seen from what is drawn on, and keeps names apart', () => {
  const codes = { red: [30, 240], green: [40, 250], blue: [35, 245] } as const;
  const madeFrom = { frames: [], stopsBy: 'shutter', codes } as const;
  const red = responseOf(toneCurve(1.1)).channels.red;
  const blue = responseOf(toneCurve(1.6)).channels.blue;
  const { green } = responseOf(toneCurve(1.4)).channels;
  const apart = responseOf(toneCurve(1), { madeFrom, channels: { red, green, blue } });
  const { curves, key } = responsePlot(apart, SIZE);
  expect(curves.map(({ channels }) => channels.join())).toEqual(['red', 'green', 'blue']);
  expect(points(curves[1]!.path)).toHaveLength(250 - 40 + 1);
  expect(points(curves[1]!.beyondPath).length).toBeGreaterThan(5);
  expect(key).toHaveLength(4);
  const names = key.map(({ nameAt }) => nameAt);
  for (const [i, a] of names.entries())
    for (const b of names.slice(i + 1)) expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeGreaterThan(15);
  // within the ±, curves are one
  const wide = responsePlot({ ...apart, plusMinusEv: 2 }, SIZE);
  expect(wide.curves.map(({ channels }) => channels.join())).toEqual(['red,green,blue']);
});

test('responsePlot(response) says what sRGB would make of the first stop', () => {
  expectWithin(responsePlot(srgbResponse(), SIZE).firstStopBySrgb, 1, 1e-9);
  const hidden = responsePlot(responseOf(toneCurve(1.4)), SIZE).firstStopBySrgb;
  expect(hidden).toBeLessThan(0.8);
  expect(hidden).toBeGreaterThan(0.3);
});
