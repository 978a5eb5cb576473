import { distanceMap } from './distance-map.ts';

/** Cells of what is no background, all around in background, that are filled: specks of dust or noise. */
const SPECK_CELLS = 40;
/** Larger ones that hardly differ: dust that the blank shows beside. */
const FAINT_CELLS = 600;
const FAINT_EV = 0.04;
/** Faint and nowhere farther than this from background: the rim of some step that noise or coding made. */
const THIN_CELLS = 3.5;

/** Counts as background what is too small, or too small and faint, for a subject. Changes `background`. */
export function fillIslands(background: Uint8Array, level: Float32Array, columns: number): void {
  const inward = distanceMap((at) => background[at] === 1, columns, background.length / columns);
  const seen = new Uint8Array(background.length);
  const stack = new Int32Array(background.length);
  for (let start = 0; start < background.length; start++) {
    if (background[start] || seen[start]) continue;
    let end = 1;
    let deviation = 0;
    let deepest = 0;
    stack[0] = start;
    seen[start] = 1;
    for (let next = 0; next < end; next++) {
      const at = stack[next]!;
      deviation += Math.abs(level[at]!);
      deepest = Math.max(deepest, inward[at]!);
      const column = at % columns;
      for (let down = -columns; down <= columns; down += columns) {
        for (let right = -1; right <= 1; right++) {
          const beside = at + down + right;
          if (beside < 0 || beside >= background.length || background[beside] || seen[beside]) continue;
          if (column + right < 0 || column + right >= columns) continue;
          seen[beside] = 1;
          stack[end++] = beside;
        }
      }
    }
    const isFaint = deviation < FAINT_EV * end;
    const isSpeck = end < SPECK_CELLS || (isFaint && (end < FAINT_CELLS || deepest < THIN_CELLS));
    if (isSpeck) for (let i = 0; i < end; i++) background[stack[i]!] = 1;
  }
}
