import { fittingCells } from '../fits/fitting-cells.ts';
import { heldOutError } from '../fits/held-out-error.ts';
import { splineThrough } from '../fits/spline-through.ts';
import type { Surface } from '../fits/surface.ts';
import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import { invertMatrix3, transformVector3 } from '../numeric/matrix3.ts';
import type { LitSet } from './lit-set.ts';
import { emptySampleLight, sampleLighter } from './sample-light.ts';
import type { SetReading } from './set-reading.ts';
import type { SetSamples } from './set-samples.ts';

/**
 * The light of a fitted set as one more surface over the region; `null` where it is none: too few cells, or colours
 * that the file's primaries can't mix.
 *
 * A set is fitted once, to all samples. What it would err by on parts held out is taken from what it leaves over: of p
 * figures fitted to n samples, the square of that times (n + p) / (n − p) (Akaike's final prediction error, Ann. Inst.
 * Statist. Math. 21 (1969) 243; formula from memory).
 */
export function setSurface(
  { sets, found }: Pick<SetReading, 'sets' | 'found'>,
  samples: SetSamples,
  grid: CellGrid,
): Surface | null {
  const [best] = sets;
  const figures = Object.keys(found[0]?.figures ?? {}).length;
  const count = samples.x.length;
  if (!best || figures >= count) return null;
  const light = lightAtCells(best, samples, grid);
  if (!light) return null;
  const spline = splineThrough(grid, light);
  if (!spline) return null;
  const cells = fittingCells(grid);
  const atUsable = (values: Float64Array) => Float64Array.from(cells.cell, (at) => values[at]!);
  const leftOver = heldOutError(cells, {
    red: atUsable(light.red),
    green: atUsable(light.green),
    blue: atUsable(light.blue),
  });
  const more = Math.sqrt((count + figures) / (count - figures));
  return {
    name: 'set',
    terms: figures,
    region: grid.region,
    heldOutEv: leftOver.heldOutEv * more,
    heldOutStandardErrorEv: leftOver.heldOutStandardErrorEv * more,
    ...spline,
    stiffness: 0,
  };
}

/** Log2 light of a set at the centre of every cell, in the grid's own channels. */
function lightAtCells(set: LitSet, { levelEv, aspect }: SetSamples, grid: CellGrid): CellChannels | null {
  const count = grid.columns * grid.rows;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    const centre = cellCentre(grid, at);
    x[at] = centre.x - 0.5;
    y[at] = (centre.y - 0.5) * aspect;
  }
  const seen = emptySampleLight(count);
  sampleLighter({ x, y })(set, seen);
  const toRgb = invertMatrix3(grid.toXyz);
  const [red, green, blue] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  for (let at = 0; at < count; at++) {
    const luminance = 2 ** (seen.ev[at]! + levelEv);
    const [u, v] = [seen.uPrime[at]!, seen.vPrime[at]!];
    // the inverse of u′ and v′, CIE e-ILV 17-23-074
    const xyz = [
      (luminance * 9 * u) / (4 * v),
      luminance,
      (luminance * (12 - 3 * u - 20 * v)) / (4 * v),
    ] as const;
    const rgb = transformVector3(toRgb, xyz);
    if (!rgb.every((value) => value > 0)) return null;
    [red[at], green[at], blue[at]] = [Math.log2(rgb[0]), Math.log2(rgb[1]), Math.log2(rgb[2])];
  }
  return { red, green, blue };
}
