import type { Estimate } from '../lamps/estimate.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { ModelledCause } from '../lamps/taken-out.ts';
import type { Setup } from '../setup.ts';
import { miredInWords, shareInWords, stopsInWords } from './figures-in-words.ts';
import { sideInWords } from './side-in-words.ts';

/** A share that is known to better than this is given as such. */
const SURE_SHARE = 0.2;

/**
 * Each cause in one sentence, as a photographer would say it, from what the model found.
 *
 * @param toldMm - takes the lengths that are told in whole centimetres, in mm and unrounded, in the sentence's order.
 */
export function causeSentence(
  cause: ModelledCause,
  found: SetReading,
  setup: Setup,
  ev: number,
  toldMm: number[] = [],
): string {
  const [light, other] = found.lights;
  switch (cause) {
    case 'off-centre': {
      const { right, down } = found.offCentre!;
      const who = other === undefined ? 'The light stands' : 'The two lights together stand';
      const place = away(right.value, down.value, setup, toldMm);
      const centre = setup.frameWidthMm === null ? 'its centre' : 'the frame’s centre';
      return `${who} about ${place} ${centre}${standing(right, down, setup, toldMm)}.`;
    }
    case 'too-close':
      return other === undefined
        ? `The light is close for the width of the frame: it falls off by ${stopsInWords(ev)} more than it needs to.`
        : `The lights are close for the width of the frame: they fall off by ${stopsInWords(ev)} more than they need to.`;
    case 'aimed-off': {
      const worst = worstAimed(found.lights);
      const [right, down] = [worst.aimErrorRight.value, worst.aimErrorDown.value];
      const who = other === undefined ? 'The light' : worst === light ? 'The left light' : 'The right light';
      return `${who} is aimed about ${away(right, down, setup, toldMm)} where it would light evenly.`;
    }
    case 'unequal-lamps': {
      const ahead = found.balance!.ev.value;
      const [strong, weak] = ahead > 0 ? ['left', 'right'] : ['right', 'left'];
      return `The ${strong} light is ${stopsInWords(ahead)} stronger than the ${weak} one${orSo(found.balance!.ev)}.`;
    }
    case 'unequal-colour': {
      const ahead = found.balance!.mired.value;
      const [warm, cool] = ahead > 0 ? ['left', 'right'] : ['right', 'left'];
      return `The ${warm} light is warmer than the ${cool} one by ${miredInWords(Math.abs(ahead))}.`;
    }
    case 'hot-spot':
      if (found.panelRise !== null) return panelSentence(found.panelRise, ev);
      return 'The sheet lets part of the light straight through: it is hottest where you look into the light.';
    case 'stray-light':
      return spillInWords(found);
    case 'tinted-on-one-side': {
      const { mired, towardDeg } = found.tint!;
      if (setup.arrangement === 'panel')
        return `The panel is warmer towards the ${sideInWords(towardDeg)}, by ${miredInWords(mired)}.`;
      const what = setup.arrangement === 'behind-sheet' ? 'sheet' : 'background';
      return `The ${what} itself is warmer towards the ${sideInWords(towardDeg)}, by ${miredInWords(mired)}: it is not the light.`;
    }
    case 'lens-falloff':
      return `The lens takes ${stopsInWords(found.lensCornerEv.value)} in the corners${orSo(found.lensCornerEv)}.`;
    case 'lens-colour': {
      const mired = found.lensCornerMired.value;
      return `The lens tints the corners: ${mired > 0 ? 'warmer' : 'cooler'} by ${miredInWords(mired)}.`;
    }
  }
}

/** Spill: its side where it has one, its share, and its colour where that differs from the lights'. */
function spillInWords({ spill: { share, mired, fromDeg }, secondFrames }: SetReading): string {
  const isOfOtherColour = Math.abs(mired.value) > mired.plusMinus;
  const what = isOfOtherColour ? 'Light of another colour spills in' : 'Light of the room spills in';
  const from = fromDeg === null ? '' : `, most from the ${sideInWords(fromDeg)}`;
  const by = isOfOtherColour
    ? `, ${mired.value > 0 ? 'warmer' : 'cooler'} by ${miredInWords(mired.value)}`
    : '';
  const isSure = share.plusMinus < SURE_SHARE * share.value;
  const part = `${isSure ? '' : 'about '}${shareInWords(share.value)} of the light in the middle`;
  const open =
    isSure || secondFrames.some(({ kind }) => kind === 'lamp-off')
      ? ''
      : '; how much of it there is one frame can’t tell well, one with the lights off would';
  return `${what}${from}: ${part}${by}${open}.`;
}

/** " (give or take 0.1 stop)". */
function orSo({ plusMinus }: Estimate): string {
  return ` (give or take ${stopsInWords(plusMinus)})`;
}

/** The light that is aimed farthest from where it may well be. */
export function worstAimed(lights: SetReading['lights']): SetReading['lights'][number] {
  return lights.reduce((most, each) => (aimSize(each) > aimSize(most) ? each : most));
}

function panelSentence({ acrossEv, downEv }: NonNullable<SetReading['panelRise']>, ev: number): string {
  const [where, rise] =
    Math.abs(acrossEv) > Math.abs(downEv) ? ['sides', acrossEv] : ['top and bottom', downEv];
  if (acrossEv < 0 && downEv < 0)
    return `The panel is hotter in its middle than all round: it takes ${stopsInWords(ev)}.`;
  return rise > 0
    ? `The panel is hotter at its ${where} than in its middle: it takes ${stopsInWords(ev)}.`
    : `The panel is hotter in its middle than at its ${where}: it takes ${stopsInWords(ev)}.`;
}

/** "11 cm to the left of", "3 cm to the right and 2 cm up from"; in parts of the frame's width where that is unknown. */
function away(right: number, down: number, { frameWidthMm }: Setup, toldMm: number[]): string {
  const least = Math.max(Math.abs(right), Math.abs(down)) / 4;
  const across = Math.abs(right) > least ? lengthInWords(Math.abs(right), frameWidthMm, toldMm) : null;
  const along = Math.abs(down) > least ? lengthInWords(Math.abs(down), frameWidthMm, toldMm) : null;
  if (across === null) return `${along} ${down > 0 ? 'below' : 'above'}`;
  const side = `${across} to the ${right > 0 ? 'right' : 'left'}`;
  return along === null
    ? `${side} of`
    : `${side} and ${along.replace(OF_FRAME, '')} ${down > 0 ? 'down' : 'up'} from`;
}

function standing(right: Estimate, down: Estimate, { frameWidthMm }: Setup, toldMm: number[]): string {
  const widths = Math.max(right.plusMinus, down.plusMinus);
  return ` (give or take ${lengthInWords(widths, frameWidthMm, toldMm).replace(OF_FRAME, '')})`;
}

/** Said once in a sentence is enough. */
const OF_FRAME = ' of the frame’s width';

function lengthInWords(widths: number, frameWidthMm: number | null, toldMm: number[]): string {
  if (frameWidthMm === null) return `${Math.max(1, Math.round(widths * 100))} %${OF_FRAME}`;
  const mm = widths * frameWidthMm;
  toldMm.push(mm);
  return `${Math.max(1, Math.round(mm / 10))} cm`;
}

function aimSize({ aimErrorRight, aimErrorDown }: SetReading['lights'][number]): number {
  return Math.hypot(aimErrorRight.value, aimErrorDown.value);
}
