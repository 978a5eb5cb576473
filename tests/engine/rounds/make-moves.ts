import type { Move } from '../../../src/engine/moves/move.ts';
import { aimedBy, type Hands } from '../../synthetic/random/hands.ts';
import { colourShift, shiftedLight } from '../../synthetic/studio/colour-shift.ts';
import type { Background, StudioLamp, StudioSet } from '../../synthetic/studio/studio-set.ts';

/**
 * The studio after a person has done what the moves say, one after the other, as nearly as hands do. Frame and exposure
 * stay; where only a direction is known nothing is done.
 */
export function madeMoves(set: StudioSet, moves: readonly Move[], hands: Hands): StudioSet {
  return moves.reduce((stands, move) => made(stands, move, hands), set);
}

function made(set: StudioSet, move: Move, hands: Hands): StudioSet {
  const mm = (length: number | null, widths: number | null) =>
    length ?? (widths === null ? null : widths * set.frameWidthMm);
  switch (move.kind) {
    case 'slide-lamp': {
      const rightMm = mm(move.rightMm, move.rightFrameWidths);
      const downMm = mm(move.downMm, move.downFrameWidths);
      if (rightMm === null || downMm === null) return set;
      return withLamp(set, move.lamp, (lamp) =>
        aimed(
          { ...lamp, xMm: lamp.xMm + hands.slidMm(rightMm), yMm: lamp.yMm + hands.slidMm(downMm) },
          lamp.aimXMm + rightMm,
          lamp.aimYMm + downMm,
          hands,
        ),
      );
    }
    case 'lamp-distance': {
      const { ratio } = move;
      if (ratio === null) return set;
      return withLamp(set, move.lamp, (lamp) =>
        aimed(
          { ...lamp, distanceMm: lamp.distanceMm + hands.slidMm((ratio - 1) * lamp.distanceMm) },
          lamp.aimXMm,
          lamp.aimYMm,
          hands,
        ),
      );
    }
    case 'turn-lamp': {
      const rightMm = mm(move.aimRightMm, move.aimRightFrameWidths);
      const downMm = mm(move.aimDownMm, move.aimDownFrameWidths);
      if (rightMm === null || downMm === null) return set;
      return withLamp(set, move.lamp, (lamp) =>
        aimed(lamp, lamp.aimXMm + rightMm, lamp.aimYMm + downMm, hands),
      );
    }
    case 'balance-lamps':
      return withLamp(set, move.lamp, (lamp) => ({ ...lamp, power: lamp.power * 2 ** move.stops }));
    case 'gel':
    case 'lamp-colour':
      return withLamp(set, move.lamp, (lamp) => ({
        ...lamp,
        colour: shiftedLight(lamp.colour, hands.gelMired(move.miredShift), move.duvShift),
      }));
    case 'white-balance':
      return { ...set, background: balanced(set.background, move.miredShift, move.duvShift) };
    case 'block-stray':
      return set.spill
        ? { ...set, spill: { ...set.spill, level: set.spill.level * hands.leftOfSpill() } }
        : set;
    case 'add-diffusion':
      return set.background.kind === 'sheet' ? { ...set, background: doubled(set.background) } : set;
    case 'frame-tighter':
    case 'expose':
      return set;
  }
}

/** What goes straight on through two like sheets has gone so through either, and is spread by both. */
function doubled(sheet: Extract<Background, { kind: 'sheet' }>): Background {
  const { forwardShare, lobeDeg } = sheet;
  return { ...sheet, forwardShare: forwardShare ** 2, lobeDeg: lobeDeg * Math.SQRT2 };
}

/** What the camera's gains do to all of the picture alike, a tint of the background does too. */
function balanced(background: Background, mired: number, duv: number): Background {
  const gains = colourShift(mired, duv);
  const { tint = () => [1, 1, 1] as const } = background;
  return {
    ...background,
    tint: (xMm, yMm) => {
      const [red, green, blue] = tint(xMm, yMm);
      return [red * gains[0], green * gains[1], blue * gains[2]];
    },
  };
}

function aimed(lamp: StudioLamp, aimXMm: number, aimYMm: number, hands: Hands): StudioLamp {
  const aim = aimedBy(hands, lamp, { xMm: aimXMm, yMm: aimYMm });
  return { ...lamp, aimXMm: aim.xMm, aimYMm: aim.yMm };
}

function withLamp(set: StudioSet, index: number, change: (lamp: StudioLamp) => StudioLamp): StudioSet {
  return { ...set, lamps: set.lamps.map((lamp, i) => (i === index ? change(lamp) : lamp)) };
}
