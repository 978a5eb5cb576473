import type { RivalCauses } from '../lamps/cause-shares.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { ModelledCause } from '../lamps/taken-out.ts';
import type { Finding } from '../reading.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { limitStops } from './limit-stops.ts';

/** Less of the tolerance than this is not worth a second frame. Own choice. */
const LEAST_OF_TOLERANCE = 1 / 3;

/** Shares of the light up to which spill may be there unnoticed. */
const LEAST_SPILL_SHARE = 0.04;

/** What the frames cannot tell, and which second frame would; largest first. */
export function cannotTell({ set, tolerance, setup }: DiagnosisInput): Finding[] {
  if (set === null) return [];
  const least = LEAST_OF_TOLERANCE * limitStops(tolerance);
  const alike = set.rivals
    .filter(({ ev }) => ev > least)
    .toSorted((a, b) => b.ev - a.ev)
    .slice(0, 1); // pairs of one another: one second frame settles them all
  return [
    ...alike.map((rivals) => aboutRivals(rivals, setup.arrangement === 'panel')),
    ...aboutSpill(set, least),
  ];
}

function aboutRivals({ causes, ev, confidence }: RivalCauses, isPanel: boolean): Finding {
  return {
    kind: 'cannot-tell',
    confidence,
    ev,
    mired: null,
    at: null,
    says: `${question(causes, isPanel)}: together they take ${stopsInWords(ev)}. ${answer(causes)}`,
  };
}

function question(causes: RivalCauses['causes'], isPanel: boolean): string {
  if (isOf(causes, 'off-centre', 'aimed-off'))
    return 'One frame can’t tell a light that stands to one side from one that is aimed to that side';
  if (isOf(causes, 'too-close', 'hot-spot'))
    return 'One frame can’t tell a light that stands too close from a sheet that lets light straight through';
  return `One frame can’t tell the lens’s falloff from ${isPanel ? 'the panel’s' : 'the light’s'}`;
}

function answer(causes: RivalCauses['causes']): string {
  const slide = 'slide the camera sideways by a third of the frame and shoot again';
  if (isOf(causes, 'off-centre', 'aimed-off'))
    return `Look where it points, or ${slide}: more of its light shows.`;
  if (isOf(causes, 'too-close', 'hot-spot'))
    return `Enter how far the light stands from the sheet, or ${slide}: what moves along with the camera is the sheet’s.`;
  return `${slide.replace('slide', 'Slide')}: what stays with the frame is the lens’s.`;
}

/** Spill of the lights' own colour looks like a wider light: only a frame with the lights off shows it. */
function aboutSpill({ spill, isSpillTold, causes }: SetReading, least: number): Finding[] {
  const share = causes.find(({ cause }) => cause === 'stray-light');
  if (share === undefined || isSpillTold) return [];
  const upTo = Math.abs(share.ev) + share.plusMinusEv;
  const mayBe = spill.share.value + spill.share.plusMinus;
  if (!(upTo > least && mayBe > LEAST_SPILL_SHARE && share.confidence > 0.2)) return [];
  return [
    {
      kind: 'cannot-tell',
      confidence: share.confidence,
      ev: Math.max(0, share.ev),
      mired: null,
      at: null,
      says: 'Light of the room in the lights’ own colour can’t be told from theirs in one frame. Shoot one with the lights off, the room and the exposure as they were: it shows what the room adds.',
    },
  ];
}

/** Whether these two are the rivals. */
function isOf(causes: RivalCauses['causes'], ...wanted: readonly ModelledCause[]): boolean {
  return wanted.every((cause) => causes.includes(cause));
}
