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
 * Notes in a column beside a drawing, each as near the height of its place as those above and below allow. In the
 * order of their places, so that no two lines cross far.
 */
export function columnNotes(
  notes: readonly PlanNote[],
  column: { left: number; right: number; top: number },
): { placed: PlacedNote[]; height: number } {
  const blocks = [...notes]
    .sort((a, b) => a.at[1] - b.at[1] || b.at[0] - a.at[0])
    .map((note) => ({ note, lines: wrapWords(note.text, column.right - column.left) }));
  let free = column.top;
  const placed = blocks.map(({ note, lines }) => {
    const top = Math.max(free, note.at[1] - ASCENT + MIDDLE);
    free = top + lines.length * NOTE_LINE_HEIGHT + GAP;
    const foot = top + ASCENT;
    const leader: PlotPoint = [column.left - 5, foot - MIDDLE];
    return {
      lines,
      textAt: [column.left, foot] as PlotPoint,
      anchor: 'start' as const,
      leaderPath: linePath([[note.at, leader]]),
    };
  });
  return { placed, height: free };
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
