import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { LensCheck, RoleWish } from './bench-element.ts';

/**
 * The role of the second frame that is asked for; `null` for a blank one.
 * @throws RangeError that names what of the wish can't be.
 */
export function secondFrameRole({ role = 'blank', lensCheck }: RoleWish): SecondFrameRole | null {
  if (role === 'lens-check') return checkedLensCheck(lensCheck);
  if (lensCheck !== undefined)
    throw new RangeError(`"lensCheck" goes with the role "lens-check", not "${role}"`);
  if (role === 'lamp-off') return { kind: 'lamp-off' };
  if (role === 'blank') return null;
  throw new RangeError(`a frame’s role is "blank", "lamp-off" or "lens-check", not "${role as string}"`);
}

/** What is asked for as the options of the element's `read`. */
export function asRoleWish(role: SecondFrameRole): RoleWish {
  return role.kind === 'lamp-off' ? { role: 'lamp-off' } : { role: 'lens-check', lensCheck: role };
}

function checkedLensCheck(lensCheck: LensCheck | undefined): LensCheck {
  switch (lensCheck?.kind) {
    case 'shifted': {
      const { rightFrameWidths, downFrameWidths } = lensCheck;
      refuseNoNumber('rightFrameWidths', rightFrameWidths);
      refuseNoNumber('downFrameWidths', downFrameWidths);
      if (rightFrameWidths === 0 && downFrameWidths === 0)
        throw new RangeError(
          '"rightFrameWidths" and "downFrameWidths" are both 0: the camera has to have been slid',
        );
      return { kind: 'shifted', rightFrameWidths, downFrameWidths };
    }
    case 'stopped-down': {
      const { stops } = lensCheck;
      refuseNoNumber('stops', stops);
      if (stops <= 0) throw new RangeError(`"stops" has to be above 0, not ${stops}`);
      return { kind: 'stopped-down', stops };
    }
    default:
      throw new RangeError(
        'the role "lens-check" needs a "lensCheck" whose kind is "shifted" or "stopped-down"',
      );
  }
}

function refuseNoNumber(name: string, value: unknown): void {
  if (typeof value === 'number' && Number.isFinite(value)) return;
  throw new RangeError(`"${name}" has to be a finite number, not ${value}`);
}
