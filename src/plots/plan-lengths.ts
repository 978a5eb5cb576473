import type { FoundLight } from '../engine/lamps/set-reading.ts';
import type { Setup } from '../engine/setup.ts';
import type { PlanInput } from './plan-input.ts';

/** A length of the plan: as entered or found, or a stand-in that is drawn dashed. */
export interface PlanLength {
  /** In mm; in a scale of its own where the frame's width is unknown. */
  readonly mm: number;
  readonly isKnown: boolean;
  /** Drawn shorter than it is, with a break, since it would make everything else too small. */
  readonly isShortened: boolean;
}

/** The lengths that a plan is drawn by. */
export interface PlanLengths {
  readonly frameWidth: PlanLength;
  /** Per light; none for a panel, which is the background itself. */
  readonly lampDistances: readonly PlanLength[];
  /** Where each light is to go, as a distance; `null` where that is not foretold. */
  readonly lampTargetsMm: readonly (number | null)[];
  readonly lampWidth: PlanLength;
  readonly cameraDistance: PlanLength;
  /** 1 where lights stand on the far side of the surface from the camera, −1 on the camera's own. */
  readonly lampSide: 1 | -1;
}

/** Frame widths for lengths nobody entered, and the most that is drawn unbroken. */
const STAND_IN = { frameMm: 500, lampDistance: 1.2, lampWidth: 0.35, cameraDistance: 1.6 };
const LONGEST = { lamp: 5, camera: 1.6 };

/** A distance whose 95 % interval is longer than this part of it is not found: the light stands somewhere on a line. */
const LONGEST_SPREAD = 0.6;

/** What is drawn for each length of a set, as it stands before the moves: found before entered. */
export function planLengths({
  setup,
  moves,
  foundLights,
}: Pick<PlanInput, 'setup' | 'moves' | 'foundLights'>): PlanLengths {
  const frameWidth = length(setup.frameWidthMm, STAND_IN.frameMm);
  const frame = frameWidth.mm;
  const lampDistances = Array.from({ length: lightCount(setup) }, (_, lamp) => {
    const found = foundLights[lamp];
    const longest = LONGEST.lamp * frame;
    if (found === undefined)
      return length(setup.lampDistanceMm[lamp] ?? null, STAND_IN.lampDistance * frame, longest);
    const mm = found.distance.value * frame;
    return isDistanceFound(found)
      ? length(mm, mm, longest)
      : { mm: Math.min(mm, longest), isKnown: false, isShortened: false };
  });
  const lampTargetsMm = lampDistances.map((distance, lamp) => {
    const ratio = moves.reduce<number | null>(
      (found, move) => (move.kind === 'lamp-distance' && move.lamp === lamp ? move.ratio : found),
      null,
    );
    return ratio === null || distance.isShortened ? null : distance.mm * ratio;
  });
  const depth = Math.max(frame, ...lampDistances.map(({ mm }) => mm), ...lampTargetsMm.map((mm) => mm ?? 0));
  return {
    frameWidth,
    lampDistances,
    lampTargetsMm,
    lampWidth: length(setup.lampWidthMm, STAND_IN.lampWidth * frame, frame * 2),
    cameraDistance: length(setup.cameraDistanceMm, STAND_IN.cameraDistance * frame, LONGEST.camera * depth),
    lampSide: setup.arrangement === 'behind-sheet' || setup.arrangement === 'panel' ? 1 : -1,
  };
}

/** Whether the frame tells how far away a light stands, and not only across. */
export function isDistanceFound({ distance }: Pick<FoundLight, 'distance'>): boolean {
  return 2 * distance.plusMinus <= LONGEST_SPREAD * distance.value;
}

function lightCount({ arrangement }: Setup): number {
  if (arrangement === 'panel') return 0;
  return arrangement === 'two-lamps' ? 2 : 1;
}

function length(entered: number | null, standIn: number, longest = Number.POSITIVE_INFINITY): PlanLength {
  const mm = entered ?? standIn;
  return {
    mm: Math.min(mm, longest),
    isKnown: entered !== null,
    isShortened: entered !== null && mm > longest,
  };
}
