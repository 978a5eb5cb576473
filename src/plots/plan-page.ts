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

/** As wide as the narrowest screen shows at full size. */
const WIDTH = 358;
const DRAWING = { above: { width: 212, height: 420 }, side: { width: WIDTH, height: 300 } };

/** Lays a plan out: notes in a column beside what is seen from above, over and under what is seen from the side. */
export function planPage(
  input: PlanInput,
  seenFrom: PlanSide,
  notesOn: (view: PlanView) => readonly PlanNote[],
): PlanPage {
  const view = planView(input, seenFrom, DRAWING[seenFrom]);
  const notes = notesOn(view);
  if (seenFrom === 'above') {
    const left = DRAWING.above.width + 6;
    const { placed, height } = columnNotes(shifted(notes, (left - 6 - view.width) / 2, 0), {
      left,
      right: WIDTH,
      top: 4,
    });
    return {
      view,
      width: WIDTH,
      height: Math.max(height, view.height),
      drawnAt: [(left - 6 - view.width) / 2, 0],
      notes: placed,
    };
  }
  const across = (WIDTH - view.width) / 2;
  const drawing = { left: 0, right: WIDTH, top: 0, bottom: view.height };
  const { from, to } = stairNotes(shifted(notes, across, 0), drawing);
  const down = -from;
  const { placed } = stairNotes(shifted(notes, across, down), {
    ...drawing,
    top: down,
    bottom: down + view.height,
  });
  return { view, width: WIDTH, height: to + down, drawnAt: [across, down], notes: placed };
}

/** The side to begin with: the one from which more of the moves are seen; from above where both show as many. */
export function firstSide(input: PlanInput): PlanSide {
  const seen = (side: PlanSide) => planView(input, side, DRAWING[side]).moves.length;
  return hasHeights(input) && seen('side') > seen('above') ? 'side' : 'above';
}

function shifted(notes: readonly PlanNote[], right: number, down: number): PlanNote[] {
  return notes.map(({ at, text }) => ({ at: [at[0] + right, at[1] + down], text }));
}
