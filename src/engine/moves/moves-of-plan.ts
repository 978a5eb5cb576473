import { OF_WAY, STAND_MM } from '../lamps/hand-slips.ts';
import { type LightChange, NO_CHANGE } from '../lamps/light-change.ts';
import type { Setup } from '../setup.ts';
import { cautionForMovingLamp } from './cautions.ts';
import type { LightStep } from './light-steps.ts';
import type { Move } from './move.ts';

/** What a hand at a stand can set: to the centimetre, a tenth of a stop, where no width is known a hundredth of it. */
const STEP_MM = 10;
const STEP_WIDTHS = 0.01;
const STEP_STOPS = 0.1;
/** A change of distance less than this is none, where it is not known in mm. */
const STEP_RATIO = 0.02;

/**
 * A change as it will be told: rounded to what hands can set, and a slide without what they would miss of it anyway: a
 * centimetre up beside forty to the right is none.
 */
export function asTold(change: LightChange, distance: number, widthMm: number | null): LightChange {
  const step = widthMm === null ? STEP_WIDTHS : STEP_MM / widthMm;
  const rounded = (value: number, to: number) => to * Math.round(value / to);
  const away = (change.ratio - 1) * distance;
  const ratio = widthMm === null ? rounded(change.ratio, STEP_RATIO) : 1 + rounded(away, step) / distance;
  const stand = widthMm === null ? 0 : STAND_MM / widthMm;
  const slide = (way: number, across: number) =>
    Math.abs(way) > Math.hypot(OF_WAY * across, stand) ? rounded(way, step) : 0;
  return {
    ...change,
    right: slide(change.right, change.down),
    down: slide(change.down, change.right),
    ratio,
    aimRight: rounded(change.aimRight, step),
    aimDown: rounded(change.aimDown, step),
    stops: rounded(change.stops, STEP_STOPS),
  };
}

/** One step of a change by itself. */
export function stepAlone(change: LightChange, step: LightStep): LightChange {
  const { right, down, ratio, aimRight, aimDown, stops } = change;
  if (step === 'slide') return { ...NO_CHANGE, right, down };
  if (step === 'distance') return { ...NO_CHANGE, ratio };
  return step === 'turn' ? { ...NO_CHANGE, aimRight, aimDown } : { ...NO_CHANGE, stops };
}

/**
 * The moves of a plan, light by light in the order of doing: slide, then distance, then aim, power last.
 * `brings`: by how much a change of one light alone narrows the spread, in stops.
 */
export function movesOfPlan(
  changes: readonly LightChange[],
  setup: Setup,
  brings: (lamp: number, change: LightChange) => number,
): Move[] {
  const width = setup.frameWidthMm;
  const mm = (widths: number) => (width === null ? null : Math.round(widths * width) + 0);
  const inWidths = (widths: number) => Math.round(widths * 1000) / 1000 + 0;
  const caution = cautionForMovingLamp(setup.light);
  return changes.flatMap((change, lamp): Move[] => {
    const { right, down, ratio, aimRight, aimDown, stops } = change;
    const outcome = (step: LightStep, mind: string | null) => ({
      bringsEv: brings(lamp, stepAlone(change, step)),
      toward: null,
      caution: mind,
    });
    const moves: Move[] = [];
    if (right !== 0 || down !== 0)
      moves.push({
        ...{ kind: 'slide-lamp', lamp, rightMm: mm(right), downMm: mm(down) },
        ...{ rightFrameWidths: inWidths(right), downFrameWidths: inWidths(down) },
        ...outcome('slide', caution),
      });
    if (ratio !== 1) moves.push({ kind: 'lamp-distance', lamp, ratio, ...outcome('distance', caution) });
    if (aimRight !== 0 || aimDown !== 0)
      moves.push({
        ...{ kind: 'turn-lamp', lamp, aimRightMm: mm(aimRight), aimDownMm: mm(aimDown) },
        ...{ aimRightFrameWidths: inWidths(aimRight), aimDownFrameWidths: inWidths(aimDown) },
        ...outcome('turn', caution),
      });
    if (stops !== 0)
      moves.push({
        kind: 'balance-lamps',
        lamp,
        stops: Math.round(stops * 10) / 10,
        ...outcome('power', null),
      });
    return moves;
  });
}
