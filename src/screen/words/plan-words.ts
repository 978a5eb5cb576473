import type { Move } from '../../engine/moves/move.ts';
import type { Setup } from '../../engine/setup.ts';
import type { PlanLength } from '../../plots/plan-lengths.ts';
import type { PlanNote } from '../../plots/plan-notes.ts';
import type { PlanSide } from '../../plots/plan-projection.ts';
import type { PlanInput, PlanView } from '../../plots/plan-view.ts';
import { decimals } from './figures.ts';
import { type LengthUnit, lengthWords } from './length-words.ts';
import { lightNames } from './setup-words.ts';

const SURFACE: Record<Setup['arrangement'], string> = {
  'behind-sheet': 'the sheet',
  bounced: 'the wall',
  'two-lamps': 'the background',
  panel: 'the panel',
};

/** The words on the plan, each with the place it speaks of. */
export function planNotes(plan: PlanView, input: PlanInput, unit: LengthUnit): PlanNote[] {
  return [...setNotes(plan, input, unit), ...moveNotes(plan, input, unit)];
}

/** What stands where, without the moves. */
function setNotes(plan: PlanView, input: PlanInput, unit: LengthUnit): PlanNote[] {
  const { setup } = input;
  return [
    {
      at: plan.camera,
      text: `camera, ${distanceWords(plan.lengths.cameraDistance, setup.cameraDistanceMm, unit)}`,
    },
    { at: plan.frame.at, text: surfaceWords(plan, input, unit) },
    {
      at: plan.hottest.at,
      text: input.isHottestClipped ? 'clipped here; hottest somewhere in it' : 'hottest here',
    },
    ...lampNotes(plan, setup, unit),
  ];
}

/** Whether lengths can be taken off the plan, in a sentence under it. */
export function scaleWords(plan: PlanView, { arrangement }: Setup): string {
  const { frameWidth, lampDistances, lampWidth, cameraDistance } = plan.lengths;
  const behind =
    arrangement === 'behind-sheet' ? ' Left and right are as the camera sees it, also behind the sheet.' : '';
  if (!frameWidth.isKnown)
    return `Not to scale: enter the frame’s width and the light’s distance for a plan to scale.${behind}`;
  const isDashed = lampDistances.length > 0 || !cameraDistance.isKnown;
  const isBroken = [...lampDistances, cameraDistance].some(({ isShortened }) => isShortened);
  const broken = isBroken ? ' A line with two strokes through it is longer than drawn.' : '';
  const size = lampDistances.length === 0 || lampWidth.isKnown ? '' : ' The light’s size is not known.';
  return `To scale${isDashed ? '; what is dashed is not known' : ''}.${size}${broken}${behind}`;
}

/** The plan in sentences for those who do not see it; also what this view cannot show. */
export function planSummary(plan: PlanView, input: PlanInput, unit: LengthUnit): string {
  const { moves, setup } = input;
  const notes = [
    ...setNotes(plan, input, unit).map(({ text }) => text),
    // beside an arrow it is seen which light is meant; here it is said
    ...plan.moves.map(({ index }) => {
      const move = moves[index]!;
      const light = 'lamp' in move ? `${lightNames(setup.arrangement)[move.lamp] ?? 'the light'}, ` : '';
      return `${index + 1}. ${light}${moveOnPlan(move, plan.seenFrom, setup, unit)}`;
    }),
  ];
  const hidden = hiddenMoves(plan, input);
  return `${plan.seenFrom === 'above' ? 'From above' : 'From the side'}: ${notes.join('; ')}.${hidden === null ? '' : ` ${hidden}`}`;
}

/** Which lights' moves have no arrow in this view; `null` where all have. */
export function hiddenMoves(plan: PlanView, { moves }: PlanInput): string | null {
  const ofLights = ['slide-lamp', 'lamp-distance', 'turn-lamp', 'block-stray'];
  const hidden = moves
    .map(({ kind }, i) =>
      ofLights.includes(kind) && !plan.moves.some(({ index }) => index === i) ? i + 1 : null,
    )
    .filter((number) => number !== null);
  if (hidden.length === 0) return null;
  const which = hidden.length === 1 ? `Move ${hidden[0]} is` : `Moves ${hidden.join(' and ')} are`;
  return `${which} not seen ${plan.seenFrom === 'above' ? 'from above' : 'from the side'}.`;
}

function surfaceWords(plan: PlanView, { setup, aspect, brighterDeg }: PlanInput, unit: LengthUnit): string {
  const isAbove = plan.seenFrom === 'above';
  const { frameWidthMm, arrangement } = setup;
  const size =
    frameWidthMm === null
      ? 'width not known'
      : `${lengthWords(frameWidthMm * (isAbove ? 1 : aspect), unit)} ${isAbove ? 'wide' : 'high'}`;
  const side = wayWords(null, brighterDeg, isAbove);
  const end = isAbove ? `to the ${side}` : side === 'up' ? 'at the top' : 'at the bottom';
  return `${SURFACE[arrangement]}: the frame, ${size}${plan.brighter === null ? '' : `; brighter ${end}`}`;
}

/** Lights at one distance share a note, at the last of them; so they do seen from the side, one behind the other. */
function lampNotes({ lamps, lengths, seenFrom }: PlanView, setup: Setup, unit: LengthUnit): PlanNote[] {
  const where = seenFrom === 'above' ? 'place across' : 'height';
  const words = lamps.map((_, lamp) => {
    const distance = distanceWords(lengths.lampDistances[lamp]!, setup.lampDistanceMm[lamp] ?? null, unit);
    if (!lengths.lampDistances[lamp]!.isKnown) return `${distance}; ${where} not known`;
    return `${distance} ${lengths.lampSide > 0 ? 'behind' : 'in front'}; ${where} not known`;
  });
  if (lamps.length === 2 && words[0] === words[1])
    return [{ at: lamps[1]!.at, text: `each light, ${words[0]}` }];
  const names = lamps.length === 1 ? ['the light'] : ['left light', 'right light'];
  return lamps.map(({ at }, lamp) => ({ at, text: `${names[lamp]}, ${words[lamp]}` }));
}

/** Moves alike share a note, at the arrow farthest right. */
function moveNotes(plan: PlanView, { moves, setup }: PlanInput, unit: LengthUnit): PlanNote[] {
  const alike = new Map<string, { numbers: number[]; at: PlanNote['at'] }>();
  for (const { index, at } of plan.moves) {
    const words = moveOnPlan(moves[index]!, plan.seenFrom, setup, unit);
    const before = alike.get(words);
    if (before === undefined) alike.set(words, { numbers: [index + 1], at });
    else
      alike.set(words, {
        numbers: [...before.numbers, index + 1],
        at: at[0] > before.at[0] ? at : before.at,
      });
  }
  return [...alike].map(([words, { numbers, at }]) => ({
    at,
    text: numbers.length === 1 ? `${numbers[0]}. ${words}` : `${numbers.join(' and ')}: ${words}`,
  }));
}

function distanceWords({ isKnown }: PlanLength, mm: number | null, unit: LengthUnit): string {
  return isKnown && mm !== null ? lengthWords(mm, unit) : 'distance not known';
}

/** A move in two or three words, as they stand beside its arrow. */
function moveOnPlan(move: Move, seenFrom: PlanSide, setup: Setup, unit: LengthUnit): string {
  const isAbove = seenFrom === 'above';
  switch (move.kind) {
    case 'slide-lamp': {
      const mm = isAbove ? move.rightMm : move.downMm;
      const widths = isAbove ? move.rightFrameWidths : move.downFrameWidths;
      const way = wayWords(mm ?? widths, move.toward, isAbove);
      if (mm !== null) return `slide ${lengthWords(Math.abs(mm), unit)} ${way}`;
      return widths === null ? `slide ${way}` : `slide ${decimals(Math.abs(widths), 2)} frame ${way}`;
    }
    case 'turn-lamp': {
      const aim = isAbove
        ? (move.aimRightMm ?? move.aimRightFrameWidths)
        : (move.aimDownMm ?? move.aimDownFrameWidths);
      return `turn ${wayWords(aim, move.toward, isAbove)}`;
    }
    case 'lamp-distance': {
      const present = setup.lampDistanceMm[move.lamp] ?? null;
      if (move.ratio === null) return 'farther';
      if (present === null) return `${decimals(move.ratio, 2)} times the distance`;
      return `to ${lengthWords(present * move.ratio, unit)}`;
    }
    default:
      return 'block the spill';
  }
}

function wayWords(length: number | null, towardDeg: number | null, isAbove: boolean): string {
  const angle = ((towardDeg ?? 0) * Math.PI) / 180;
  const way = length ?? (isAbove ? Math.cos(angle) : Math.sin(angle));
  if (isAbove) return way < 0 ? 'left' : 'right';
  return way < 0 ? 'up' : 'down';
}
