import { linePath } from './line-path.ts';
import type { PlotPoint } from './plot-line.ts';
import { textWidth } from './text-width.ts';

/** Words on a place of the plan. */
export interface PlanNote {
  readonly at: PlotPoint;
  readonly text: string;
}

/** A note in its lines, `textAt` the foot of the first, with a thin line to its place. */
export interface PlacedNote {
  readonly lines: readonly string[];
  readonly textAt: PlotPoint;
  readonly anchor: 'start' | 'end';
  readonly leaderPath: string;
}

export const NOTE_FONT_SIZE = 14;
export const NOTE_LINE_HEIGHT = 17;

const GAP = 7;
/** From a note's first foot line to the middle of its letters, and from its top to that foot. */
const MIDDLE = 5;
const ASCENT = 13;
/** A note on a drawing's very edge is never narrower than a longer word or two. */
const NARROWEST = 120;

/**
 * Notes in a column beside a drawing, each as near the height of its place as those above and below allow. Each next
 * one is the highest whose line leaves all remaining places on its lower side, so that no two lines cross.
 */
export function columnNotes(
  notes: readonly PlanNote[],
  column: { left: number; right: number; top: number },
): { placed: PlacedNote[]; height: number } {
  const placed: PlacedNote[] = [];
  let free = column.top;
  const topOf = ({ at }: PlanNote) => Math.max(free, at[1] - ASCENT + MIDDLE);
  const leaderOf = (note: PlanNote): [PlotPoint, PlotPoint] => [
    note.at,
    [column.left - 5, topOf(note) + ASCENT - MIDDLE],
  ];
  let left: readonly PlanNote[] = [...notes].sort((a, b) => a.at[1] - b.at[1] || b.at[0] - a.at[0]);
  while (left.length > 0) {
    const isNext = (note: PlanNote) => left.every(({ at }) => !isAbove(at, ...leaderOf(note)));
    const next = left.find(isNext) ?? left[0]!;
    const lines = wrapWords(next.text, column.right - column.left);
    const textAt: PlotPoint = [column.left, topOf(next) + ASCENT];
    placed.push({ lines, textAt, anchor: 'start', leaderPath: linePath([leaderOf(next)]) });
    free = topOf(next) + lines.length * NOTE_LINE_HEIGHT + GAP;
    left = left.filter((note) => note !== next);
  }
  return { placed, height: free };
}

/** Whether a point lies above the line that runs from one to another farther right. */
function isAbove([x, y]: PlotPoint, from: PlotPoint, to: PlotPoint): boolean {
  return y < from[1] + ((to[1] - from[1]) * (x - from[0])) / (to[0] - from[0]);
}

/**
 * Notes over and under a drawing that is wider than high: those on its left half under it and running to the right,
 * those on its right half over it and running to the left, each in rows of its own like stairs, so that no line
 * runs through a note. `top` and `bottom` are the drawing's; the notes reach from `from` to `to`.
 */
export function stairNotes(
  notes: readonly PlanNote[],
  drawing: { left: number; right: number; top: number; bottom: number },
): { placed: PlacedNote[]; from: number; to: number } {
  const middle = (drawing.left + drawing.right) / 2;
  const wrapped = (note: PlanNote, space: number) => wrapWords(note.text, Math.max(NARROWEST, space));
  let below = drawing.bottom + GAP;
  const under = notes
    .filter(({ at }) => at[0] < middle)
    .sort((a, b) => b.at[0] - a.at[0])
    .map((note): PlacedNote => {
      const lines = wrapped(note, drawing.right - note.at[0]);
      const foot = below + ASCENT;
      below += lines.length * NOTE_LINE_HEIGHT + GAP;
      const leaderPath = linePath([[note.at, [note.at[0], foot - ASCENT + 2]]]);
      return { lines, textAt: [note.at[0], foot], anchor: 'start', leaderPath };
    });
  let above = drawing.top - GAP;
  const over = notes
    .filter(({ at }) => at[0] >= middle)
    .sort((a, b) => a.at[0] - b.at[0])
    .map((note): PlacedNote => {
      const lines = wrapped(note, note.at[0] - drawing.left);
      const last = above - 4;
      const foot = last - (lines.length - 1) * NOTE_LINE_HEIGHT;
      above = foot - ASCENT - GAP;
      return {
        lines,
        textAt: [note.at[0], foot],
        anchor: 'end',
        leaderPath: linePath([[note.at, [note.at[0], last + 4]]]),
      };
    });
  return { placed: [...under, ...over], from: above, to: below };
}

/** Words in lines of at most that width; what is kept together but wider is parted, and a longer word keeps a line to itself. */
export function wrapWords(text: string, width: number): string[] {
  const lines: string[] = [];
  const words = text
    .split(' ')
    .flatMap((word) => (textWidth(word, NOTE_FONT_SIZE) > width ? word.split('\u00a0') : [word]));
  for (const word of words) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, NOTE_FONT_SIZE) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
