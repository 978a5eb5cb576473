import { describe, expect, test } from 'vitest';
import type { RoleWish } from '../../src/screen/bench-element.ts';
import { asRoleWish, secondFrameRole } from '../../src/screen/second-frame-wish.ts';

const SLID = { kind: 'shifted', rightFrameWidths: -0.3, downFrameWidths: 0 } as const;
const CLOSED = { kind: 'stopped-down', stops: 2 } as const;

describe('secondFrameRole(wish)', () => {
  test.each<[string, RoleWish, ReturnType<typeof secondFrameRole>]>([
    ['nothing said', {}, null],
    ['a blank frame', { role: 'blank' }, null],
    ['the lights off', { role: 'lamp-off' }, { kind: 'lamp-off' }],
    ['the camera slid', { role: 'lens-check', lensCheck: SLID }, SLID],
    ['the lens stopped down', { role: 'lens-check', lensCheck: CLOSED }, CLOSED],
  ])('understands %s', (_what, wish, role) => {
    expect(secondFrameRole(wish)).toEqual(role);
    if (role !== null) expect(asRoleWish(role)).toEqual(wish);
  });

  test.each<[string, object, RegExp]>([
    ['a role there is none of', { role: 'lamps-off' }, /"lamp-off".*not "lamps-off"/],
    ['a lens check that says nothing', { role: 'lens-check' }, /needs a "lensCheck"/],
    ['null for a lens check', { role: 'lens-check', lensCheck: null }, /needs a "lensCheck"/],
    ['another kind', { role: 'lens-check', lensCheck: { kind: 'turned' } }, /"shifted" or "stopped-down"/],
    ['a lens check without its role', { lensCheck: SLID }, /"lensCheck" goes with/],
    ['a lens check of the lights off', { role: 'lamp-off', lensCheck: CLOSED }, /not "lamp-off"/],
    [
      'half a slide',
      { role: 'lens-check', lensCheck: { kind: 'shifted', rightFrameWidths: 0.3 } },
      /"downFrameWidths" has to be a finite number, not undefined/,
    ],
    [
      'a slide that is no number',
      { role: 'lens-check', lensCheck: { ...SLID, rightFrameWidths: Number.NaN } },
      /"rightFrameWidths" has to be a finite number, not NaN/,
    ],
    ['no slide', { role: 'lens-check', lensCheck: { ...SLID, rightFrameWidths: 0 } }, /both 0/],
    ['no stops', { role: 'lens-check', lensCheck: { ...CLOSED, stops: 0 } }, /"stops" has to be above 0/],
    ['opening up', { role: 'lens-check', lensCheck: { ...CLOSED, stops: -1 } }, /above 0, not -1/],
    [
      'stops as text',
      { role: 'lens-check', lensCheck: { ...CLOSED, stops: '2' } },
      /"stops" has to be a finite/,
    ],
  ])('refuses %s by name', (_what, wish, says) => {
    expect(() => secondFrameRole(wish as RoleWish)).toThrow(RangeError);
    expect(() => secondFrameRole(wish as RoleWish)).toThrow(says);
  });
});
