import { cellCentre } from '../numeric/cell-centre.ts';
import type { Finding } from '../reading.ts';
import { confidenceOf } from './confidence.ts';
import { clear, creaseLines } from './crease-lines.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { fallWithout } from './spread-without.ts';

/** What is deeper is no crease but stands in the light. */
const DEEPEST_EV = 0.5;

/** Wrinkles of a sheet, paper or cloth: narrow lines, darker or brighter than what lies beside them, at any angle. */
export function creases({ grid }: Pick<DiagnosisInput, 'grid'>): Finding | null {
  const found = creaseLines(grid);
  if (found === null) return null;
  const { lines, height, strength, leastEv } = found;
  const partEv = new Float64Array(height.length);
  for (const cell of lines.flat()) partEv[cell] = height[cell]! || 0;
  const depths = lines.map((cells) => middle(deepestHalf(cells.map((cell) => partEv[cell]!))));
  if (depths.some((ev) => Math.abs(ev) > DEEPEST_EV)) return null;
  const sure = lines.map((cells) => middle(clear(cells, strength).map((cell) => strength[cell]!)));
  const clearest = sure.indexOf(Math.max(...sure));
  const deepest = depths.reduce((deep, ev) => (Math.abs(ev) > Math.abs(deep) ? ev : deep), 0);
  const at = middleCell(lines[clearest]!, grid.columns);
  return {
    kind: 'creases',
    confidence: confidenceOf(sure[clearest]!, 1),
    ev: fallWithout(grid, partEv),
    mired: null,
    at: cellCentre(grid, at),
    says: sentence(lines.length > 1, deepest, leastEv),
    lengthsMm: null,
  };
}

function sentence(several: boolean, deepestEv: number, floorEv: number): string {
  const depth = `${stopsInWords(deepestEv)} ${deepestEv < 0 ? 'darker' : 'brighter'} than the background beside`;
  const told = Math.abs(deepestEv) > floorEv;
  const what = several
    ? `Creases show in the background${told ? `, the deepest about ${depth} it` : ', narrow ones'}`
    : `A crease shows in the background${told ? `, about ${depth} it` : ', a narrow one'}`;
  return `${what}: smooth it, or set it farther back out of focus.`;
}

/** Half of the values, those furthest from 0. */
function deepestHalf(values: number[]): number[] {
  return values.sort((a, b) => Math.abs(b) - Math.abs(a)).slice(0, Math.ceil(values.length / 2));
}

function middle(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}

/** The cell of a line nearest to the mean of them all. */
function middleCell(cells: readonly number[], columns: number): number {
  const x = cells.reduce((sum, cell) => sum + (cell % columns), 0) / cells.length;
  const y = cells.reduce((sum, cell) => sum + Math.floor(cell / columns), 0) / cells.length;
  const off = (cell: number) => Math.hypot((cell % columns) - x, Math.floor(cell / columns) - y);
  return cells.reduce((near, cell) => (off(cell) < off(near) ? cell : near));
}
