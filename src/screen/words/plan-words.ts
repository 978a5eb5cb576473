import type { Move } from '../../engine/moves/move.ts';
import type { Setup } from '../../engine/setup.ts';
import type { PlanInput } from '../../plots/plan-input.ts';
import type { PlanLength } from '../../plots/plan-lengths.ts';
import type { PlanNote } from '../../plots/plan-notes.ts';
import type { PlanSide } from '../../plots/plan-projection.ts';
import type { PlanView } from '../../plots/plan-view.ts';
import { decimals, percent } from './figures.ts';
import {
  foundLightNote,
  foundLightSentence,
  hiddenSpill,
  SURFACE_WORDS,
  spillNote,
  spillSentence,
} from './found-set-words.ts';
import { handLengthWords, type LengthUnit, lengthWords } from './length-words.ts';
import { lightNames } from './setup-words.ts';

/** The words on the plan, each with the place it speaks of. */
export function planNotes(plan: PlanView, input: PlanInput, unit: LengthUnit): PlanNote[] {
  const spill = plan.spill === null ? [] : [{ at: plan.spill.at, text: spillNote(input.spill!) }];
  return [
    ...surfaceNotes(plan, input, unit),
    ...lightNotes(plan, input, unit),
    ...spill,
    ...moveNotes(plan, input, unit),
  ];
}

/** What stands where, without lights and moves. */
function surfaceNotes(plan: PlanView, input: PlanInput, unit: LengthUnit): PlanNote[] {
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
  ];
}

/** Whether lengths can be taken off the plan, in a sentence under it. */
export function scaleWords(plan: PlanView, { arrangement }: Setup): string {
  const found = foundWords(plan);
  const { frameWidth, lampDistances, lampWidth, cameraDistance } = plan.lengths;
  const behind =
    arrangement === 'behind-sheet' ? ' Left and right are as the camera sees it, also behind the sheet.' : '';
  if (!frameWidth.isKnown)
    return `Not to scale: enter the frame’s width and the light’s distance for a plan to scale.${found}${behind}`;
  const isDashed = lampDistances.length > 0 || !cameraDistance.isKnown;
  const isBroken = [...lampDistances, cameraDistance].some(({ isShortened }) => isShortened);
  const broken = isBroken ? ' A line with two strokes through it is longer than drawn.' : '';
  const size = lampDistances.length === 0 || lampWidth.isKnown ? '' : ' The light’s size is not known.';
  return `To scale${isDashed ? '; what is dashed is not known' : ''}.${found}${size}${broken}${behind}`;
}

/** What the ovals mean. */
function foundWords({ lights }: PlanView): string {
  const { length } = lights.filter(({ isFound }) => isFound);
  if (length === 0) return '';
  return length === 1
    ? ' The light is drawn where the frame itself puts it; it may stand anywhere in the oval (95 %).'
    : ' The lights are drawn where the frame itself puts them; each may stand anywhere in its oval (95 %).';
}

/** The plan in sentences for those who do not see it; also what this view cannot show. */
export function planSummary(plan: PlanView, input: PlanInput, unit: LengthUnit): string {
  const { moves, setup } = input;
  const notes = [
    ...surfaceNotes(plan, input, unit).map(({ text }) => text),
    ...lightSentences(plan, input, unit),
    ...(plan.spill === null ? [] : [spillSentence(input.spill!, plan.seenFrom)]),
    // beside an arrow it is seen which light is meant; here it is said
    ...plan.moves.map(({ index }) => {
      const move = moves[index]!;
      const light = 'lamp' in move ? `${lightNames(setup.arrangement)[move.lamp] ?? 'the light'}, ` : '';
      return `${index + 1}. ${light}${moveOnPlan(move, plan.seenFrom, setup, unit)}`;
    }),
  ];
  const hidden = hiddenFrom(plan, input);
  return `${plan.seenFrom === 'above' ? 'From above' : 'From the side'}: ${notes.join('; ')}.${hidden === null ? '' : ` ${hidden}`}`;
}

/** What this view does not show, of the lights' moves and the spill; `null` where it shows all. */
export function hiddenFrom(plan: PlanView, input: PlanInput): string | null {
  const hidden = [hiddenMoves(plan, input), hiddenSpill(input.spill, plan.seenFrom)].filter(
    (each) => each !== null,
  );
  return hidden.length === 0 ? null : hidden.join(' ');
}

function hiddenMoves(plan: PlanView, { moves }: PlanInput): string | null {
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
  return `${SURFACE_WORDS[arrangement]}: the frame, ${size}${plan.brighter === null ? '' : `; brighter ${end}`}`;
}

/** Lights of which the same is known share a note, at the last of them; so they do seen from the side, one behind the other. */
function lightNotes(plan: PlanView, input: PlanInput, unit: LengthUnit): PlanNote[] {
  const { lights, seenFrom } = plan;
  const { setup, foundLights } = input;
  const words = lights.map((_, lamp) => {
    const found = foundLights[lamp];
    return found === undefined
      ? enteredWords(plan, setup, lamp, unit)
      : foundLightNote(found, lamp, { setup, seenFrom, unit });
  });
  if (lights.length === 2 && words[0] === words[1])
    return [{ at: lights[1]!.at, text: `each light, ${words[0]}` }];
  const names = lights.length === 1 ? ['the light'] : ['left light', 'right light'];
  return lights.map(({ at }, lamp) => ({ at, text: `${names[lamp]}, ${words[lamp]}` }));
}

/** The same for those who do not see it, in sentences where a light was found. */
function lightSentences(plan: PlanView, input: PlanInput, unit: LengthUnit): string[] {
  const { setup, foundLights } = input;
  if (foundLights.length === 0) return lightNotes(plan, input, unit).map(({ text }) => text);
  return plan.lights.map(
    (_, lamp) =>
      `${lightNames(setup.arrangement)[lamp]} ${foundLightSentence(foundLights[lamp]!, lamp, { setup, seenFrom: plan.seenFrom, unit })}`,
  );
}

/** What was entered of a light. */
function enteredWords({ lengths, seenFrom }: PlanView, setup: Setup, lamp: number, unit: LengthUnit): string {
  const where = seenFrom === 'above' ? 'place across' : 'height';
  const length = lengths.lampDistances[lamp]!;
  const distance = distanceWords(length, setup.lampDistanceMm[lamp] ?? null, unit);
  if (!length.isKnown) return `${distance}; ${where} not known`;
  return `${distance} ${lengths.lampSide > 0 ? 'behind' : 'in front'}; ${where} not known`;
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
      return widths === null ? `slide ${way}` : `slide ${percent(Math.abs(widths))} of the frame ${way}`;
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
      return `to ${handLengthWords(present * move.ratio, unit)}`;
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
