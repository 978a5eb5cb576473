import { expect, test } from 'vitest';
import type { Reading } from '../../src/engine/reading.ts';
import type { Tolerance } from '../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { judgedFigure, judgedLimit } from '../../src/plots/judged-figure.ts';
import { type TakeOnLine, type TakesLine, takesLine } from '../../src/plots/takes-line.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';
import { expectStoredPicture } from './stored-picture.ts';

const SIZE = { width: 480, height: 240 };

function take(
  spreadEv: number,
  plusMinusEv: number,
  {
    done = [],
    predicted = null,
    foretold = null,
  }: Partial<TakeOnLine> & Pick<Partial<Reading>, 'predicted'> = {},
): TakeOnLine {
  const plain = readingFixture({ columns: 2, rows: 2 });
  const falloff = { ...plain.falloff, spreadEv, plusMinusEv };
  return { reading: { ...plain, falloff, predicted }, done, foretold };
}

const first = (spreadEv: number, predicted: Reading['predicted'] = null) =>
  take(spreadEv, 0.05, { done: null, predicted });

/** As shot one after another: each of a set-up with what the one before foretold. */
const shot = (...takes: readonly TakeOnLine[]) =>
  takes.map((each, i) => ({ ...each, foretold: each.done === null ? null : takes[i - 1]!.reading }));

test('takesLine(takes) is one scale: figures, their ± and the limit lie where the axis says', () => {
  const line = takesLine([first(1.2), take(0.6, 0.1), take(0.2, 0.02)], DEFAULT_TOLERANCE, SIZE);
  const perStop = (line.foot - line.limitAt) / 0.3;
  expect(line.marks).toHaveLength(3);
  [1.2, 0.6, 0.2].forEach((spread, i) => {
    expectWithin(line.foot - line.marks[i]!.at[1], spread * perStop, 1e-9);
  });
  expectWithin(line.marks[1]!.at[1] - line.marks[1]!.top, 0.1 * perStop, 1e-9);
  for (const { value, at } of line.ticks) expectWithin(line.foot - at, value * perStop, 1e-9);
  expect(line.marks[2]!.at[1]).toBeGreaterThan(line.limitAt);
});

test('takesLine(takes) keeps everything inside its size, however many takes', () => {
  for (const count of [1, 2, 7, 40]) {
    const takes = Array.from({ length: count }, (_, i) => take(2 / (i + 1), 0.3, { done: null }));
    const line = takesLine(takes, DEFAULT_TOLERANCE, SIZE);
    for (const { at, top } of line.marks) {
      expect(at[0]).toBeGreaterThan(line.left);
      expect(at[0]).toBeLessThan(line.right);
      expect(top).toBeGreaterThanOrEqual(20);
      expect(at[1]).toBeLessThanOrEqual(line.foot);
    }
    for (let i = 1; i < count; i++)
      expectWithin(line.marks[i]!.at[0] - line.marks[i - 1]!.at[0], line.stride, 1e-9);
  }
});

test('takesLine(takes) cuts a bar that would fall below 0', () => {
  const line = takesLine([first(0.02)], DEFAULT_TOLERANCE, SIZE);
  const lowest = Math.max(...line.marks[0]!.barPath.match(/,[\d.]+/g)!.map((y) => Number(y.slice(1))));
  expectWithin(lowest, line.foot, 0.06);
});

test('takesLine(takes) is broken where a new set-up begins', () => {
  const takes = [first(1.2), take(0.6, 0.1), first(0.9), take(0.4, 0.1)];
  const { path } = takesLine(takes, DEFAULT_TOLERANCE, SIZE);
  expect(path.match(/M/g)).toHaveLength(2);
  expect(takesLine([first(1), first(1)], DEFAULT_TOLERANCE, SIZE).path).toBe('');
});

test('predictions lie beside the take that followed, and the newest’s in a place of its own', () => {
  const foretold = { spreadEv: 0.5, plusMinusEv: 0.2, tintDeltaUv: 0 };
  const line = takesLine(
    shot(first(1.2, foretold), take(0.6, 0.05, { predicted: { ...foretold, spreadEv: 0.25 } })),
    DEFAULT_TOLERANCE,
    SIZE,
  );
  expect(line.predictions.map((mark) => mark === null)).toEqual([true, false, false]);
  const perStop = (line.foot - line.limitAt) / 0.3;
  expectWithin(line.foot - line.predictions[1]!.at[1], 0.5 * perStop, 1e-9);
  expectWithin(line.predictions[1]!.at[1] - line.predictions[1]!.top, 0.2 * perStop, 1e-9);
  expectWithin(line.predictions[1]!.at[0], line.marks[1]!.at[0], 1e-9);
  expect(line.predictions[2]!.at[0]).toBeGreaterThan(line.marks[1]!.at[0]);
});

test('what was foretold stays where it was, whatever the take before is judged to foretell since', () => {
  const foretold = { spreadEv: 0.5, plusMinusEv: 0.2, tintDeltaUv: 0 };
  const takes = shot(first(1.2, foretold), take(0.6, 0.05));
  const { predictions } = takesLine(takes, DEFAULT_TOLERANCE, SIZE);
  for (const since of [null, { ...foretold, spreadEv: 0.9 }]) {
    const anew = [{ ...takes[0]!, reading: { ...takes[0]!.reading, predicted: since } }, takes[1]!];
    expect(takesLine(anew, DEFAULT_TOLERANCE, SIZE).predictions).toEqual(predictions);
  }
});

test('a prediction does not reach into a new set-up, nor to another measure than stops', () => {
  const foretold = { spreadEv: 0.5, plusMinusEv: 0.2, tintDeltaUv: 0 };
  const takes = shot(first(1.2, foretold), first(0.9));
  expect(takesLine(takes, DEFAULT_TOLERANCE, SIZE).predictions).toEqual([null, null]);
  const ratio: Tolerance = { ...DEFAULT_TOLERANCE, measure: 'min-over-mean', limit: 0.6 };
  expect(takesLine(shot(takes[0]!, take(0.5, 0.1)), ratio, SIZE).predictions).toEqual([null, null]);
});

test('judgedFigure and judgedLimit count every measure from 0, perfectly even, in its own unit', () => {
  const { falloff } = readingFixture({ columns: 2, rows: 2 });
  const of = (measure: Tolerance['measure'], limit: number) => {
    const tolerance = { ...DEFAULT_TOLERANCE, measure, limit };
    return [judgedFigure(falloff, tolerance), judgedLimit(tolerance)] as const;
  };
  const [centre, centreLimit] = of('from-centre', 0.1);
  expectWithin(centre.value, 0.2, 1e-12);
  expectWithin(centre.plusMinus, 1.2 * Math.LN2 * 0.02, 1e-12);
  expectWithin(centreLimit, 0.1, 1e-12);
  const [mean, meanLimit] = of('min-over-mean', 0.6);
  expectWithin(mean.value, 0.2, 1e-12);
  expectWithin(mean.plusMinus, 0.8 * Math.LN2 * 0.02, 1e-12);
  expectWithin(meanLimit, 0.4, 1e-12);
  const [nine, nineLimit] = of('nine-point-min-max', 0.75);
  expectWithin(nine.value, 0.25, 1e-12);
  expectWithin(nineLimit, 0.25, 1e-12);
});

test('takesLine(takes) draws the stored picture', () => {
  const takes = shot(
    first(1.31, { spreadEv: 0.5, plusMinusEv: 0.15, tintDeltaUv: 0.001 }),
    take(0.62, 0.04, { predicted: { spreadEv: 0.25, plusMinusEv: 0.1, tintDeltaUv: 0.001 } }),
    take(0.27, 0.03, { predicted: { spreadEv: 0.2, plusMinusEv: 0.08, tintDeltaUv: 0.001 } }),
  );
  expectStoredPicture('takes-line', picture(takesLine(takes, DEFAULT_TOLERANCE, SIZE)));
});

function picture(line: TakesLine): string {
  const foretold = line.predictions.filter((mark) => mark !== null);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${line.width} ${line.height}" fill="none" stroke="black">`,
    '<title>Takes going down into the tolerance</title>',
    `<rect x="${line.left}" y="${line.limitAt.toFixed(1)}" width="${line.right - line.left}" height="${(line.foot - line.limitAt).toFixed(1)}" fill="#ccc" stroke="none"/>`,
    ...line.ticks.map(({ at }) => `<path d="M${line.left},${at.toFixed(1)}H${line.right}" opacity="0.3"/>`),
    `<path d="${line.path}" stroke-width="2"/>`,
    ...foretold.map(
      ({ at, barPath }) =>
        `<path d="${barPath}" stroke-dasharray="3 2"/><circle cx="${at[0].toFixed(1)}" cy="${at[1].toFixed(1)}" r="7"/>`,
    ),
    ...line.marks.map(
      ({ at, barPath }) =>
        `<path d="${barPath}"/><circle cx="${at[0].toFixed(1)}" cy="${at[1].toFixed(1)}" r="4" fill="black"/>`,
    ),
    '</svg>',
    '',
  ].join('\n');
}
