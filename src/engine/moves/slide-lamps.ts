import { leastToldEv } from '../diagnosis/worth-telling.ts';
import type { Setup } from '../setup.ts';
import { slopeHasItsOwnColour } from './added-light.ts';
import { ALONG_AXIS, brighterLamp } from './brighter-lamp.ts';
import { cautionForMovingLamp } from './cautions.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';
import { isSureSlope } from './sure-slope.ts';

/** A slope that makes up less than this share of the falloff's variance hardly explains it. Own allowance. */
const LEAST_EXPLAINED = 0.2;

/**
 * Slides the lamp or lamps against the slope of the light, where its direction is sure and taking it out would
 * narrow the spread. One lamp goes toward the darker side. Of two, one at each side, the lamp at the brighter side
 * goes outward for a slope across, and both go toward the darker side for a slope up or down. A panel's slope is
 * not the place of a lamp, nor is one with a colour of its own.
 */
export function slideLamps(input: MovesInput): Move[] {
  const { measurement, findings, setup, tolerance } = input;
  const { gradient } = measurement;
  if (setup.arrangement === 'panel' || gradient.angleDeg === null || !isSureSlope(gradient)) return [];
  if (!(gradient.explains >= LEAST_EXPLAINED) || slopeHasItsOwnColour(input)) return [];
  // A slope that was told for its colour alone is not worth moving a lamp for.
  const least = leastToldEv(measurement, tolerance);
  if (!findings.some(({ kind, ev }) => kind === 'slope' && (ev ?? 0) > least)) return [];
  const darker = (gradient.angleDeg + 180) % 360;
  if (setup.arrangement !== 'two-lamps') return [slide(0, darker, setup)];

  const right = Math.cos((gradient.angleDeg * Math.PI) / 180);
  const down = Math.sin((gradient.angleDeg * Math.PI) / 180);
  const upright = Math.abs(down) > ALONG_AXIS;
  const brighter = brighterLamp(gradient);
  const moves: Move[] = [];
  for (const lamp of [0, 1]) {
    const outward = lamp === brighter ? right : 0;
    const toDarker = upright ? -down : 0;
    if (outward === 0 && toDarker === 0) continue;
    const toward = (Math.atan2(toDarker, outward) * 180) / Math.PI;
    moves.push(slide(lamp, (toward + 360) % 360, setup));
  }
  return moves;
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
