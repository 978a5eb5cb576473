import type { Gradient } from '../reading.ts';
import type { Setup } from '../setup.ts';
import { cautionForMovingLamp } from './cautions.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/** A direction that is less sure than this is not to be acted upon. */
const SURE_WITHIN_DEG = 30;

/** A slope that makes up less than this share of the falloff's variance hardly explains it. Own allowance. */
const LEAST_EXPLAINED = 0.2;

/** A slope whose angle lies within half an eighth of an axis counts as along that axis alone. */
const ALONG_AXIS = Math.sin(Math.PI / 8);

/**
 * Slides the lamp or lamps against the slope of the light, where its direction is sure and taking it out would
 * narrow the spread. One lamp goes toward the darker side. Of two, one at each side, the lamp at the brighter side
 * goes outward for a slope across, and both go toward the darker side for a slope up or down. A panel's slope is
 * not the place of a lamp.
 */
export function slideLamps({ measurement, findings, setup }: MovesInput): Move[] {
  const { gradient } = measurement;
  if (setup.arrangement === 'panel' || gradient.angleDeg === null || !isSure(gradient)) return [];
  if (!findings.some(({ kind }) => kind === 'slope')) return [];
  const darker = (gradient.angleDeg + 180) % 360;
  if (setup.arrangement !== 'two-lamps') return [slide(0, darker, setup)];

  const right = Math.cos((gradient.angleDeg * Math.PI) / 180);
  const down = Math.sin((gradient.angleDeg * Math.PI) / 180);
  const across = Math.abs(right) > ALONG_AXIS;
  const upright = Math.abs(down) > ALONG_AXIS;
  const brighterLamp = right > 0 ? 1 : 0;
  const moves: Move[] = [];
  for (const lamp of [0, 1]) {
    const outward = across && lamp === brighterLamp ? right : 0;
    const toDarker = upright ? -down : 0;
    if (outward === 0 && toDarker === 0) continue;
    const toward = (Math.atan2(toDarker, outward) * 180) / Math.PI;
    moves.push(slide(lamp, (toward + 360) % 360, setup));
  }
  return moves;
}

function isSure({ ev, explains, plusMinusEv, plusMinusDeg }: Gradient): boolean {
  if (!(explains >= LEAST_EXPLAINED)) return false;
  return ev > plusMinusEv && plusMinusDeg !== null && plusMinusDeg <= SURE_WITHIN_DEG;
}

function slide(lamp: number, toward: number, { light }: Setup): Move {
  return {
    kind: 'slide-lamp',
    lamp,
    rightMm: null,
    downMm: null,
    rightFrameWidths: null,
    downFrameWidths: null,
    bringsEv: null,
    toward,
    caution: cautionForMovingLamp(light),
  };
}
