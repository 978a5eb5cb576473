import { distanceMap } from './distance-map.ts';

/** Cells of what is no background, all around in background, that are filled: specks of dust or noise. */
const SPECK_CELLS = 40;
/** Larger ones that hardly differ from the background around them: dust that the blank shows beside, blocks of a JPEG. */
const FAINT_CELLS = 600;
const FAINT_SHARE = 0.001;
const FAINT_EV = 0.04;
/** Faint and nowhere farther than this from background: the rim of some step that noise or coding made. */
const THIN_CELLS = 3.5;

/** Counts as background what is too small, or too small and faint, for a subject. Changes `background`. */
export function fillIslands(background: Uint8Array, level: Float32Array, columns: number): void {
  const inward = distanceMap((at) => background[at] === 1, columns, background.length / columns);
  const faintCells = Math.max(FAINT_CELLS, FAINT_SHARE * background.length);
  const seen = new Uint8Array(background.length);
  const stack = new Int32Array(background.length);
  for (let start = 0; start < background.length; start++) {
    if (background[start] || seen[start]) continue;
    let end = 1;
    let sum = 0;
    let around = 0;
    let beside = 0;
    let deepest = 0;
    stack[0] = start;
    seen[start] = 1;
    for (let next = 0; next < end; next++) {
      const at = stack[next]!;
      sum += level[at]!;
      deepest = Math.max(deepest, inward[at]!);
      const column = at % columns;
      for (let down = -columns; down <= columns; down += columns) {
        for (let right = -1; right <= 1; right++) {
          const near = at + down + right;
          if (near < 0 || near >= background.length || seen[near]) continue;
          if (column + right < 0 || column + right >= columns) continue;
          if (background[near]) {
            around += level[near]!;
            beside++;
            continue;
          }
          seen[near] = 1;
          stack[end++] = near;
        }
      }
    }
    const isFaint = beside > 0 && Math.abs(sum / end - around / beside) < FAINT_EV;
    const isSpeck = end < SPECK_CELLS || (isFaint && (end < faintCells || deepest < THIN_CELLS));
    if (isSpeck) for (let i = 0; i < end; i++) background[stack[i]!] = 1;
  }
}
