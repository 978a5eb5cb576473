import { expect, test } from 'vitest';
import { bendingPenalty } from '../../../src/engine/fits/bending-penalty.ts';
import { splineBasis } from '../../../src/engine/fits/spline-basis.ts';
import { bandedProductTrace } from '../../../src/engine/numeric/banded-inverse.ts';
import { WHOLE_FRAME } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';

/** The penalty of coefficients that follow f at integer places across and down. */
function bendingOf(
  spans: { spansAcross: number; spansDown: number },
  spanAspect: number,
  f: (across: number, down: number) => number,
): number {
  const basis = splineBasis(WHOLE_FRAME, spans);
  const [across, down] = [spans.spansAcross + 3, spans.spansDown + 3];
  const coefficients = new Float64Array(basis.size);
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < down; j++) coefficients[down <= across ? i * down + j : j * across + i] = f(i, j);
  }
  const squares = new Float64Array((basis.halfBandwidth + 1) * basis.size);
  for (let i = 0; i < basis.size; i++) {
    for (let j = Math.max(0, i - basis.halfBandwidth); j <= i; j++) {
      squares[(i + 1) * basis.halfBandwidth + j] = coefficients[i]! * coefficients[j]!;
    }
  }
  return bandedProductTrace(bendingPenalty(basis, spans, spanAspect), squares, basis);
}

for (const spans of [
  { spansAcross: 6, spansDown: 4 },
  { spansAcross: 3, spansDown: 5 },
]) {
  const [across, down] = [spans.spansAcross + 3, spans.spansDown + 3];

  test(`a plane costs no bending on ${across} × ${down} splines, a parabola its second difference squared`, () => {
    expectWithin(
      bendingOf(spans, 1.3, (i, j) => 2 + 3 * i - 5 * j),
      0,
      1e-9,
    );
    expectWithin(
      bendingOf(spans, 1, (i) => i * i),
      4 * (across - 2) * down,
      1e-8,
    );
    expectWithin(
      bendingOf(spans, 1, (_, j) => j * j),
      4 * (down - 2) * across,
      1e-8,
    );
    expectWithin(
      bendingOf(spans, 1, (i, j) => i * j),
      2 * (across - 1) * (down - 1),
      1e-8,
    );
  });

  test(`bending along a span twice as wide as high costs a quarter of that on squares, ${across} × ${down}`, () => {
    const square = bendingOf(spans, 1, (i) => i * i);
    expectWithin(
      bendingOf(spans, 2, (i) => i * i),
      square / 4,
      1e-8,
    );
    expect(square).toBeGreaterThan(0);
  });
}
