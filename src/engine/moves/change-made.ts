import { type LightChange, NO_CHANGE, type SetChange, together } from '../lamps/light-change.ts';
import type { Setup } from '../setup.ts';
import type { Move } from './move.ts';

/** Once the room's light is blocked about a tenth is left of it. Own choice. */
export const BLOCKED_EV = -3.3;

/**
 * What moves that were made change at a set; `null` where that cannot be said: a way of unknown length,
 * diffusion on a head, another frame. Exposure and white balance are the camera's, and change nothing at the set.
 */
export function changeMade(done: readonly Move[], setup: Setup): SetChange | null {
  const lights: LightChange[] = Array.from(
    { length: setup.arrangement === 'two-lamps' ? 2 : 1 },
    () => NO_CHANGE,
  );
  let spillEv = 0;
  let isDoubled = false;
  for (const move of done) {
    if (move.kind === 'expose' || move.kind === 'white-balance') continue;
    if (move.kind === 'block-stray') {
      spillEv += BLOCKED_EV;
      continue;
    }
    if (move.kind === 'add-diffusion' && setup.arrangement === 'behind-sheet' && !isDoubled) {
      isDoubled = true;
      continue;
    }
    if (move.kind === 'add-diffusion' || move.kind === 'frame-tighter') return null;
    const change = ofLight(move, setup.frameWidthMm);
    const before = lights[move.lamp];
    if (change === null || before === undefined) return null;
    lights[move.lamp] = together(before, change);
  }
  return { lights, spillEv, isDoubled };
}

type MoveOfLight = Exclude<
  Move,
  { kind: 'expose' | 'white-balance' | 'block-stray' | 'add-diffusion' | 'frame-tighter' }
>;

function ofLight(move: MoveOfLight, widthMm: number | null): LightChange | null {
  switch (move.kind) {
    case 'slide-lamp': {
      const right = inWidths(move.rightMm, move.rightFrameWidths, widthMm);
      const down = inWidths(move.downMm, move.downFrameWidths, widthMm);
      return right === null || down === null ? null : { ...NO_CHANGE, right, down };
    }
    case 'turn-lamp': {
      const aimRight = inWidths(move.aimRightMm, move.aimRightFrameWidths, widthMm);
      const aimDown = inWidths(move.aimDownMm, move.aimDownFrameWidths, widthMm);
      return aimRight === null || aimDown === null ? null : { ...NO_CHANGE, aimRight, aimDown };
    }
    case 'lamp-distance':
      return move.ratio === null ? null : { ...NO_CHANGE, ratio: move.ratio };
    case 'balance-lamps':
      return { ...NO_CHANGE, stops: move.stops };
    case 'gel':
    case 'lamp-colour':
      return { ...NO_CHANGE, mired: move.miredShift, duv: move.duvShift };
  }
}

/** Millimetres where they and the frame's width are known: they are what was measured at the set. */
function inWidths(mm: number | null, widths: number | null, widthMm: number | null): number | null {
  return mm !== null && widthMm !== null ? mm / widthMm : widths;
}
