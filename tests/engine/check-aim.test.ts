import { expect, test } from 'vitest';
import { type Aim, EVEN } from '../../src/engine/aim.ts';
import { checkAim } from '../../src/engine/check-aim.ts';

test.each<Aim>([
  EVEN,
  { kind: 'clean-white', whiteCode: null, mostOverEv: 1 },
  { kind: 'clean-white', whiteCode: 250, mostOverEv: 0.5 },
  { kind: 'ramp', angleDeg: 315, ev: 2 },
])('checkAim lets %o pass', (aim) => {
  expect(() => checkAim(aim)).not.toThrow();
});

test.each([
  [null, /even, clean-white, ramp, not "undefined"/],
  ['even', /not "undefined"/],
  [{ kind: 'odd' }, /not "odd"/],
  [{ kind: 'toString' }, /not "toString"/],
  [{ kind: 'ramp', angleDeg: '90', ev: 2 }, /angleDeg must be a number, not 90/],
  [{ kind: 'ramp', angleDeg: 90 }, /ev must be a number, not undefined/],
  [{ kind: 'clean-white', whiteCode: null, mostOverEv: null }, /mostOverEv must be a number/],
])('checkAim refuses %o, which is no aim', (aim, says) => {
  expect(() => checkAim(aim as Aim)).toThrow(TypeError);
  expect(() => checkAim(aim as Aim)).toThrow(says);
});

test.each([
  { kind: 'ramp', angleDeg: 400, ev: 2 },
  { kind: 'ramp', angleDeg: 90, ev: 0 },
  { kind: 'ramp', angleDeg: 90, ev: Number.NaN },
  { kind: 'ramp', angleDeg: Number.POSITIVE_INFINITY, ev: 1 },
  { kind: 'clean-white', whiteCode: 256, mostOverEv: 1 },
  { kind: 'clean-white', whiteCode: 250, mostOverEv: -1 },
] as Aim[])('checkAim refuses figures that can’t be asked for: %o', (aim) => {
  expect(() => checkAim(aim)).toThrow(RangeError);
});
