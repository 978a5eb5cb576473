import type { BackgroundLevel } from '../../engine/exposure/background-level.ts';
import type { ExposureChange, ExposureGoal } from '../../engine/exposure/exposure-goal.ts';
import type { ExposureWay } from '../../engine/exposure/ways-to-expose.ts';
import { decimals, percent, plusMinus, stops } from './figures.ts';
import { trimmed } from './tolerance-words.ts';

/** How far the background stands below clipping, in the order of saying. */
export function levelSentences(level: BackgroundLevel): readonly string[] {
  const { brightestEv, meanEv, darkestEv, overEv, firstEv, firstChannel, clippedShare } = level;
  const says: string[] = [];
  if (firstEv !== null && brightestEv !== null && meanEv !== null && darkestEv !== null) {
    const first = isFirst(level) ? ` (its ${firstChannel} ${stops(-firstEv)})` : '';
    says.push(
      `The background’s hottest part stands ${stops(-brightestEv)}${plusMinus(level.brightestPlusMinusEv, 2)} below clipping${first}, its mean ${stops(-meanEv)}${plusMinus(level.meanPlusMinusEv, 2)}, its darkest part ${stops(-darkestEv)}${plusMinus(level.darkestPlusMinusEv, 2)}.`,
    );
  } else {
    const over =
      overEv === null || overEv < 0.05 ? '' : `, drawn on from the light beside it to about ${stops(overEv)}`;
    const dark =
      darkestEv === null
        ? ''
        : ` Its darkest part stands ${stops(-darkestEv)}${plusMinus(level.darkestPlusMinusEv, 2)} below.`;
    says.push(
      `${percent(clippedShare)} of the background is clipped: its hottest part stands over that level by more than can be seen${over}.${dark}`,
    );
  }
  if (level.isAssumed)
    says.push(
      'These are stops of light only by assumption: what tone curve was laid on is not known, and most of all near white it hides stops. A raw file, or a bracket of this camera, would tell.',
    );
  return says;
}

/** The same as figures, for the record. */
export function levelFigures(level: BackgroundLevel): readonly (readonly [string, string])[] {
  const { brightestEv, meanEv, darkestEv, firstEv, firstChannel, clippedShare } = level;
  const below = (name: string, ev: number | null, pm: number | null) =>
    ev === null ? `${name} clipped` : `${name} ${decimals(-ev, 2)}${plusMinus(pm, 2)}`;
  const parts = [
    below('hottest', brightestEv, level.brightestPlusMinusEv),
    ...(isFirst(level) ? [below(`its ${firstChannel}`, firstEv, null)] : []),
    ...(meanEv === null ? [] : [below('mean', meanEv, level.meanPlusMinusEv)]),
    below('darkest', darkestEv, level.darkestPlusMinusEv),
  ];
  const assumed = level.isAssumed ? ', by assumption' : '';
  return [
    [`Stops below clipping${assumed}`, parts.join(', ')],
    ...(clippedShare > 0 ? [['Clipped', percent(clippedShare, 1)] as const] : []),
  ];
}

/** Whether a colour stands so much nearer to clipping than the luminance that it is worth telling. */
function isFirst({ firstEv, brightestEv }: BackgroundLevel): boolean {
  return firstEv !== null && brightestEv !== null && Math.abs(firstEv - brightestEv) >= 0.05;
}

/** Less than this is nothing that a dial could change. */
const LEAST_STEP_EV = 1 / 6;

/** What is to be changed for a goal, in one sentence; the same as the move's where both say it. */
export function changeSentence(change: ExposureChange, goal: ExposureGoal): string {
  const { stops: by, isLightAlone, isEstimate } = change;
  if (by === null && isSubjectUnknown(goal))
    return 'How far that is depends on the subject: enter its code value in a frame exposed like this one, or what a meter says.';
  if (by === null)
    return 'Part of it is clipped, so its mean can’t be told: bring its hottest part below clipping first.';
  const way = by > 0 ? 'more' : 'less';
  if (Math.abs(by) < LEAST_STEP_EV)
    return `It is there, but for ${stops(Math.abs(by), 2)}: nothing to change.`;
  if (isLightAlone)
    return `Turn the background’s light ${by > 0 ? 'up' : 'down'} by ${stops(Math.abs(by))}: what is changed in the camera changes the subject alike.`;
  const why = goal.kind === 'below-clipping' ? `, ${belowClippingWords(goal.stops)}` : '';
  const estimate = isEstimate ? ` ${DRAWN_ON}` : '';
  return `Expose ${stops(Math.abs(by))} ${way}${why}.${estimate}`;
}

const DRAWN_ON = 'By how much is an estimate: the clipped part is drawn on from the light beside it.';

function isSubjectUnknown(goal: ExposureGoal): boolean {
  if (goal.kind !== 'over-subject') return false;
  return (goal.subject.kind === 'code' ? goal.subject.code : goal.subject.overEv) === null;
}

/** What an exposure by the hottest part is for. */
export function belowClippingWords(below: number): string {
  return `so that the hottest part stands ${below === 1 ? 'a stop' : stops(below)} below clipping`;
}

/** What then clips; `null` where nothing does. */
export function clipsWords({ clipsByEv }: ExposureChange): string | null {
  if (clipsByEv === null) return null;
  return `The hottest part would then lie ${stops(clipsByEv)} over clipping.`;
}

const WAY_WORDS: Record<ExposureWay['kind'], string> = {
  shutter: 'Shutter',
  aperture: 'Aperture',
  iso: 'ISO',
  power: 'Light',
};

const CAUTION_WORDS: Record<NonNullable<ExposureWay['caution']>, string> = {
  'shutter-does-nothing': 'with a flash this does nothing',
  sync: 'with a flash this does nothing, and at times shorter than about 1/200 s many cameras fall out of step with it',
  flicker:
    'light that flickers with the mains may then change from frame to frame: it is steady over 1/50 or 1/100 s at 50 Hz, 1/60 or 1/120 s at 60 Hz',
};

/** One way to change the exposure: "Shutter 1/125 s to 1/160 s." */
export function wayWords({ kind, from, to, stops: by, leavesEv, caution }: ExposureWay): string {
  const change =
    from === null || to === null
      ? `: power ${by > 0 ? 'up' : 'down'} by ${thirdsWords(Math.abs(by))}`
      : ` ${settingWords(kind, from)} to ${settingWords(kind, to)}`;
  const leaves =
    Math.abs(leavesEv) < 0.05
      ? ''
      : `, which leaves it ${stops(Math.abs(leavesEv))} too ${leavesEv > 0 ? 'dark' : 'bright'}`;
  return `${WAY_WORDS[kind]}${change}${leaves}${caution === null ? '' : `; ${CAUTION_WORDS[caution]}`}.`;
}

/** A setting as it is marked. */
export function settingWords(kind: ExposureWay['kind'], value: number): string {
  switch (kind) {
    case 'shutter':
      return value < 0.3 ? `1/${Math.round(1 / value)}\u00a0s` : `${trimmed(value, 1)}\u00a0s`;
    case 'aperture':
      return `f/${trimmed(value, 1)}`;
    case 'iso':
      return trimmed(value, 0);
    case 'power':
      return powerWords(value);
  }
}

/** A share of full power as heads show it: "1/4", "1/8 + 0.3", "full power". */
export function powerWords(share: number): string {
  const thirds = Math.round(3 * Math.log2(share));
  const whole = Math.floor(thirds / 3);
  const more = ['', '\u00a0+\u00a00.3', '\u00a0+\u00a00.7'][thirds - 3 * whole];
  return `${whole === 0 ? 'full power' : `1/${2 ** -whole}`}${more}`;
}

/** What was typed for a head's power; `null` for what is none. */
export function parsePower(text: string): number | null {
  const match = /^(?:(full)(?: power)?|1\/(\d+))\s*(?:\+\s*(0?[.,][37]))?$/i.exec(text.trim());
  if (match === null) return null;
  const [, full, part, more] = match;
  if (full && more) return null;
  const share = full ? 1 : 1 / Number(part);
  const thirds = more === undefined ? 0 : more.endsWith('3') ? 1 : 2;
  const power = share * 2 ** (thirds / 3);
  return power <= 1.01 && power >= 1 / 257 ? power : null;
}

/** "a third of a stop", "1 2/3 stops". */
export function thirdsWords(by: number): string {
  const thirds = Math.round(3 * by);
  const whole = Math.floor(thirds / 3);
  const rest = ['', '1/3', '2/3'][thirds - 3 * whole]!;
  const figure = [whole > 0 ? String(whole) : '', rest].filter((part) => part !== '').join('\u00a0');
  return `${figure}\u00a0${thirds > 3 ? 'stops' : 'stop'}`;
}

/** Beside a frame that was shot at a time that its flash may not keep step with. */
export const BEYOND_SYNC =
  'It was shot at a time shorter than about 1/200 s with flash, where many cameras’ shutters cover part of the frame (common practice, no published source): a dark edge may be the shutter’s.';

export const NO_EXIF = 'The file does not say how it was exposed, so the camera’s settings can’t be named.';

/** Where the goals and the marks come from. */
export const EXPOSURE_PRACTICE =
  'A third of a stop below clipping for white, one to two stops over the subject by an incident meter: common practice, no published source. Settings are the marks that cameras carry for thirds of a stop, by common practice too; each stands for an exact power of 2.';
