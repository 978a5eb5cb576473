import { describe, expect, test } from 'vitest';
import { adviceOnFlicker, flickerLeft } from '../../../src/engine/diagnosis/mains-flicker.ts';

describe('flickerLeft(hertz, seconds)', () => {
  test('is at least what the marked time leaves, by |sin(πfT) / (πfT)|', () => {
    // worked out from that formula, rounded to three digits
    for (const [hertz, seconds, left] of [
      [100, 1 / 125, 0.234],
      [100, 1 / 200, 0.637],
      [100, 1 / 250, 0.757],
      [100, 1 / 60, 0.165],
      [120, 1 / 125, 0.042],
      [120, 1 / 100, 0.156],
      [120, 1 / 250, 0.662],
      [120, 1 / 50, 0.126],
    ] as const) {
      expect(flickerLeft(hertz, seconds)).toBeGreaterThanOrEqual(left - 0.0005);
      expect(flickerLeft(hertz, seconds)).toBeLessThan(left + 0.09);
    }
  });
});

describe('adviceOnFlicker(depthEv, seconds)', () => {
  test('names the mains only where the shutter time leaves too little at the other', () => {
    expect(adviceOnFlicker(0.5, 1 / 125)).toContain('fits 50 Hz');
    expect(adviceOnFlicker(0.35, 1 / 100)).toContain('fits 60 Hz');
    expect(adviceOnFlicker(0.05, 1 / 125)).toContain('which mains');
    expect(adviceOnFlicker(0.5, 1 / 1000)).toContain('which mains');
    expect(adviceOnFlicker(0.5, null)).toContain('which mains');
    expect(adviceOnFlicker(0.5, 0)).toContain('which mains');
    expect(adviceOnFlicker(0.5, 1 / 4)).toContain('no mains flicker');
  });
});
