import { surfaceAtPoints } from '../fits/evaluate-surface.ts';
import type { Surface } from '../fits/surface.ts';
import type { Vector3 } from '../numeric/matrix3.ts';
import { intervalsFor, nodesInside, usualIntervals } from './lattice-intervals.ts';
import { type GainLattice, MOST_STOPS } from './profile.ts';
import { roundedTo6 } from './rounded-to-6.ts';

/**
 * Log2 gains that bring the surface to `target` everywhere in its region, on a lattice over the whole frame; a node
 * outside the region repeats the nearest one inside. Where a surface leads to hardly any light they end at what a profile may hold.
 */
export function gainLattice(
  surface: Surface,
  target: Vector3,
  frame: { readonly widthPx: number; readonly heightPx: number },
): GainLattice {
  const { left, top, right, bottom } = surface.region;
  const usual = usualIntervals(frame.widthPx, frame.heightPx);
  const across = intervalsFor(left, right, usual.across);
  const down = intervalsFor(top, bottom, usual.down);
  const columns = nodesInside(left, right, across);
  const rows = nodesInside(top, bottom, down);
  const x: number[] = [];
  const y: number[] = [];
  for (let row = 0; row <= down; row++) {
    for (let column = 0; column <= across; column++) {
      x.push(clamp(column, columns.first, columns.last) / across);
      y.push(clamp(row, rows.first, rows.last) / down);
    }
  }
  const { red, green, blue } = surfaceAtPoints(surface, x, y);
  return {
    columns: across + 1,
    rows: down + 1,
    red: gains(red, target[0]),
    green: gains(green, target[1]),
    blue: gains(blue, target[2]),
  };
}

/** The gains at a point of the frame, bilinear between nodes. */
export function gainsAt(lattice: GainLattice, x: number, y: number): Vector3 {
  const { columns, rows } = lattice;
  const across = clamp(x, 0, 1) * (columns - 1);
  const down = clamp(y, 0, 1) * (rows - 1);
  const column = Math.min(Math.floor(across), columns - 2);
  const row = Math.min(Math.floor(down), rows - 2);
  const u = across - column;
  const v = down - row;
  const at = row * columns + column;
  const between = (nodes: readonly number[]) =>
    (1 - v) * ((1 - u) * nodes[at]! + u * nodes[at + 1]!) +
    v * ((1 - u) * nodes[at + columns]! + u * nodes[at + columns + 1]!);
  return [between(lattice.red), between(lattice.green), between(lattice.blue)];
}

function gains(log2Light: Float64Array, target: number): number[] {
  const level = Math.log2(target);
  return Array.from(log2Light, (value) => roundedTo6(clamp(level - value, -MOST_STOPS, MOST_STOPS)));
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
