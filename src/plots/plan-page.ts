import type { PlanInput } from './plan-input.ts';
import { columnNotes, type PlacedNote, type PlanNote, stairNotes } from './plan-notes.ts';
import type { PlanSide } from './plan-projection.ts';
import { hasHeights, type PlanView, planView } from './plan-view.ts';
import type { PlotPoint } from './plot-line.ts';

/** A plan with its notes, in drawing units from the page's top left. */
export interface PlanPage {
  readonly view: PlanView;
  readonly width: number;
  readonly height: number;
  /** Where the drawing's own top left lies. */
  readonly drawnAt: PlotPoint;
  readonly notes: readonly PlacedNote[];
}

/** As wide as the narrowest screen shows at full size; a wider page has as much more room for the drawing. */
export const NARROWEST_PLAN = 358;
/** Of the column of notes beside what is seen from above. */
const NOTES_WIDTH = 146;

function roomFor(seenFrom: PlanSide, width: number): { width: number; height: number } {
  const grown = width / NARROWEST_PLAN;
  return seenFrom === 'above'
    ? { width: width - NOTES_WIDTH, height: 420 * grown }
    : { width, height: 300 * grown };
}

/**
 * Lays a plan out: notes in a column beside what is seen from above, over and under what is seen from the side.
 *
 * @param width - of the page, in units of which a note's letters are 14 high; {@link NARROWEST_PLAN} at least.
 */
export function planPage(
  input: PlanInput,
  seenFrom: PlanSide,
  notesOn: (view: PlanView) => readonly PlanNote[],
  width = NARROWEST_PLAN,
): PlanPage {
  const room = roomFor(seenFrom, width);
  const view = planView(input, seenFrom, room);
  const notes = notesOn(view);
  if (seenFrom === 'above') {
    const across = (room.width - view.width) / 2;
    const column = { left: room.width + 6, right: width, top: 4 };
    const { placed, height } = columnNotes(shifted(notes, across, 0), column);
    return { view, width, height: Math.max(height, view.height), drawnAt: [across, 0], notes: placed };
  }
  const across = (width - view.width) / 2;
  const drawing = { left: 0, right: width, top: 0, bottom: view.height };
  const { from, to } = stairNotes(shifted(notes, across, 0), drawing);
  const down = -from;
  const { placed } = stairNotes(shifted(notes, across, down), {
    ...drawing,
    top: down,
    bottom: down + view.height,
  });
  return { view, width, height: to + down, drawnAt: [across, down], notes: placed };
}

/** The side to begin with: the one from which more of the moves are seen; from above where both show as many. */
export function firstSide(input: PlanInput): PlanSide {
  const seen = (side: PlanSide) => planView(input, side, roomFor(side, NARROWEST_PLAN)).moves.length;
  return hasHeights(input) && seen('side') > seen('above') ? 'side' : 'above';
}

function shifted(notes: readonly PlanNote[], right: number, down: number): PlanNote[] {
  return notes.map(({ at, text }) => ({ at: [at[0] + right, at[1] + down], text }));
}
