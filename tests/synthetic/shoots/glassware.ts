import type { KnownField } from '../known-field.ts';
import type { Draws } from '../random/draws.ts';
import type { Subject } from '../subject-scene.ts';
import { filter, glass, joined, opaque, ring, roundBox } from '../subjects.ts';

export interface Place {
  readonly field: KnownField;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Something of the catalogue, at its place; a focus series shows it with `sharpness` below 1 and a little larger. */
export type Ware = (how?: { readonly blur?: number; readonly larger?: number }) => Subject[];

/** Draws one thing, or two side by side, on a shelf or standing free: opaque, clear or coloured. */
export function drawnWare(draws: Draws, { field, widthPx, heightPx }: Place): Ware {
  const foot = draws.between(0.72, 0.9) * heightPx;
  const things = draws.chance(0.3) ? 2 : 1;
  const drawn = Array.from({ length: things }, (_, i) => ({
    x: widthPx * (things === 1 ? draws.between(0.38, 0.62) : [0.33, 0.67][i]! + draws.between(-0.04, 0.04)),
    halfWidth: widthPx * draws.between(0.06, things === 1 ? 0.2 : 0.12),
    height: heightPx * draws.between(0.28, 0.66),
    made: draws.either(['opaque', 'clear', 'coloured'] as const),
    hasNeck: draws.chance(0.35),
    hasHandle: draws.chance(0.35),
    light: [draws.between(0.02, 0.6), draws.between(0.02, 0.6), draws.between(0.02, 0.6)] as const,
    passes: [draws.between(0.3, 0.98), draws.between(0.2, 0.9), draws.between(0.1, 0.9)] as const,
  }));
  const shelf = draws.chance(0.5) ? 2 ** draws.between(-6, -1.5) : null;
  return ({ blur = 1, larger = 1 } = {}) => {
    const about = (value: number, middle: number) => middle + (value - middle) * larger;
    const made = drawn.map((one) => {
      const [x, bottom] = [about(one.x, widthPx / 2), about(foot, heightPx / 2)];
      const [halfWidth, height] = [one.halfWidth * larger, one.height * larger];
      const body = roundBox(x, bottom - height / 2, halfWidth, height / 2, halfWidth * 0.3);
      const parts = [body];
      if (one.hasNeck)
        parts.push(roundBox(x, bottom - height * 1.1, halfWidth * 0.35, height * 0.2, halfWidth * 0.1));
      if (one.hasHandle)
        parts.push(ring(x + halfWidth, bottom - height * 0.55, height * 0.22, halfWidth * 0.09));
      const sharp = joined(...parts);
      const shape: Subject['distancePx'] = (px, py) => sharp(px, py) / blur;
      if (one.made === 'opaque') return opaque(shape, one.light);
      if (one.made === 'coloured') return filter(shape, () => one.passes);
      return glass(shape, field, widthPx, heightPx, (px, py) => [
        -1.6 * (px - x),
        -1.2 * (py - bottom + height / 2),
      ]);
    });
    const board =
      shelf === null
        ? []
        : [
            opaque(
              (_, y) => (about(foot, heightPx / 2) - y) / blur,
              [shelf, shelf * 0.97, shelf * 0.94],
              0.05,
            ),
          ];
    return [...board, ...made];
  };
}
