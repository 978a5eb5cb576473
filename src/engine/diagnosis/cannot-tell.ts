import type { RivalCauses } from '../lamps/cause-shares.ts';
import type { SecondFrameRole } from '../lamps/second-frame.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { ModelledCause } from '../lamps/taken-out.ts';
import type { Finding } from '../reading.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { limitStops } from './limit-stops.ts';
import { LEAST_OF_DOUBT } from './worth-telling.ts';

/** Shares of the light up to which spill may be there unnoticed. */
const LEAST_SPILL_SHARE = 0.04;

/** The pairs that are told: the largest, and others that share no cause with one told before. */
export function rivalsTold({ set, tolerance }: Pick<DiagnosisInput, 'set' | 'tolerance'>): RivalCauses[] {
  const told: RivalCauses[] = [];
  for (const rivals of (set?.rivals ?? []).toSorted((a, b) => b.ev - a.ev)) {
    const isNew = told.every(({ causes }) => !causes.some((cause) => rivals.causes.includes(cause)));
    if (isNew && rivals.ev > LEAST_OF_DOUBT * limitStops(tolerance)) told.push(rivals);
  }
  return told;
}

/** What the frames cannot tell, and which second frame would; largest first. */
export function cannotTell(input: DiagnosisInput): Finding[] {
  const { set, tolerance, setup } = input;
  if (set === null) return [];
  const isPanel = setup.arrangement === 'panel';
  return [
    ...rivalsTold(input).map((rivals) => aboutRivals(rivals, isPanel, usedOf(set))),
    ...aboutSpill(set, LEAST_OF_DOUBT * limitStops(tolerance)),
  ];
}

function aboutRivals(
  { causes, ev, plusMinusEv, confidence }: RivalCauses,
  isPanel: boolean,
  used: readonly SecondFrameRole['kind'][],
): Finding {
  const frames = used.length === 0 ? 'One frame' : 'These frames';
  const together = `together they take ${stopsInWords(ev)}, give or take ${stopsInWords(plusMinusEv)}`;
  return {
    kind: 'cannot-tell',
    confidence,
    ev,
    mired: null,
    at: null,
    says: `${frames} can’t tell ${question(causes, isPanel)}: ${together}. ${answer(causes, used.includes('shifted'))}`,
    lengthsMm: null,
  };
}

const usedOf = ({ secondFrames }: SetReading) => secondFrames.map(({ kind }) => kind);

function question(causes: RivalCauses['causes'], isPanel: boolean): string {
  if (isOf(causes, 'off-centre', 'aimed-off'))
    return 'a light that stands to one side from one that is aimed to that side';
  if (isOf(causes, 'too-close', 'hot-spot'))
    return 'a light that stands too close from a sheet that lets light straight through';
  if (isOf(causes, 'too-close')) return 'the lens’s falloff from the light’s';
  return `the lens’s falloff from ${isPanel ? 'the panel’s' : 'the hot spot of the sheet'}`;
}

function answer(causes: RivalCauses['causes'], isSlid: boolean): string {
  const slide = 'slide the camera sideways by a third of the frame and shoot again';
  if (isOf(causes, 'off-centre', 'aimed-off'))
    return isSlid ? 'Look where it points.' : `Look where it points, or ${slide}: more of its light shows.`;
  if (isOf(causes, 'too-close', 'hot-spot'))
    return `Enter how far the light stands from the sheet${isSlid ? '.' : `, or ${slide}: a hot spot moves over the sheet with the camera.`}`;
  return isSlid
    ? 'Slide the camera to the other side as well.'
    : `${slide.replace('slide', 'Slide')}: what stays with the frame is the lens’s.`;
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
      lengthsMm: null,
    },
  ];
}

/** Whether these two are the rivals. */
function isOf(causes: RivalCauses['causes'], ...wanted: readonly ModelledCause[]): boolean {
  return wanted.every((cause) => causes.includes(cause));
}
