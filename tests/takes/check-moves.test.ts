import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { checkMoves } from '../../src/takes/check-moves.ts';
import {
  blocked,
  diffused,
  exposed,
  gelled,
  powered,
  setBack,
  slid,
  tighter,
  turned,
  whiteBalanced,
} from '../engine/moves/some-moves.ts';

const unknownWay = { rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null };

test('checkMoves lets every kind of move pass, and figures that nobody measured', () => {
  const ofLights = [slid(1), turned(1), setBack(0, 1.3), powered(1, -0.4), gelled(0, 64)];
  const others = [whiteBalanced, blocked, diffused, exposed, tighter, { ...blocked, fromDeg: null }];
  const unknown = [setBack(1, null), { ...slid(0), ...unknownWay }];
  expect(() => checkMoves([...ofLights, ...others, ...unknown], 'two-lamps')).not.toThrow();
  expect(() => checkMoves([], 'behind-sheet')).not.toThrow();
});

const ROWS: readonly (readonly [move: object, says: string])[] = [
  [setBack(0, 0), '("lamp-distance"): "ratio" has to be a finite number above 0 or null, not 0'],
  [setBack(0, -1.5), '("lamp-distance"): "ratio" has to be a finite number above 0 or null, not -1.5'],
  [setBack(0, Number.NaN), '("lamp-distance"): "ratio" has to be a finite number above 0 or null, not NaN'],
  [
    setBack(0, Number.POSITIVE_INFINITY),
    '("lamp-distance"): "ratio" has to be a finite number above 0 or null, not Infinity',
  ],
  [setBack(1, 1.2), '("lamp-distance"): "lamp" has to be 0, the only light, not 1'],
  [{ ...slid(0), lamp: -1 }, '("slide-lamp"): "lamp" has to be 0, the only light, not -1'],
  [{ ...slid(0), lamp: 0.5 }, '("slide-lamp"): "lamp" has to be 0, the only light, not 0.5'],
  [
    { ...powered(0, 1), lamp: undefined },
    '("balance-lamps"): "lamp" has to be 0, the only light, not undefined',
  ],
  [
    { ...slid(0), rightMm: Number.NEGATIVE_INFINITY },
    '("slide-lamp"): "rightMm" has to be a finite number or null, not -Infinity',
  ],
  [
    { ...slid(0), downFrameWidths: Number.NaN },
    '("slide-lamp"): "downFrameWidths" has to be a finite number or null, not NaN',
  ],
  [
    { kind: 'slide-lamp', lamp: 0, rightMm: 100, downMm: 0 },
    '("slide-lamp"): "rightFrameWidths" has to be a finite number or null, not undefined',
  ],
  [
    { ...turned(0), aimDownMm: '30' },
    '("turn-lamp"): "aimDownMm" has to be a finite number or null, not "30"',
  ],
  [powered(0, Number.NaN), '("balance-lamps"): "stops" has to be a finite number, not NaN'],
  [{ ...exposed, stops: null }, '("expose"): "stops" has to be a finite number, not null'],
  [{ ...gelled(0, 64), duvShift: undefined }, '("gel"): "duvShift" has to be a finite number, not undefined'],
  [gelled(0, Number.NaN), '("gel"): "miredShift" has to be a finite number, not NaN'],
  [{ kind: 'block-stray' }, '("block-stray"): "fromDeg" has to be a finite number or null, not undefined'],
  [{ ...tighter, right: 1.2 }, '("frame-tighter"): "right" has to be from 0 to 1, not 1.2'],
  [{ ...tighter, right: 0.05 }, '("frame-tighter"): "left" has to be less than "right"'],
  [{ kind: 'raise-lamp' }, ' has no kind that is known, but "raise-lamp"'],
  [{ kind: 'toString' }, ' has no kind that is known, but "toString"'],
  [{ lamp: 0 }, ' has no kind that is known, but undefined'],
];

test.each(ROWS)('checkMoves refuses %o and says why', (move, says) => {
  const moves = [diffused, move as Move];
  const refused = () => checkMoves(moves, 'behind-sheet');
  expect(refused).toThrow(RangeError);
  expect(refused).toThrow(`move 2${says.startsWith('(') ? ' ' : ''}${says}`);
});

test('checkMoves knows two lights where there are two, and wants a list', () => {
  expect(() => checkMoves([setBack(2, 1.2)], 'two-lamps')).toThrow(
    '0 (the left light) or 1 (the right one), not 2',
  );
  expect(() => checkMoves(null as never, 'panel')).toThrow('moves made come as a list, not as null');
  expect(() => checkMoves([null as never], 'panel')).toThrow('move 1 has no kind that is known');
});

test('checkMoves refuses a list with holes in it', () => {
  const holed = [blocked, undefined, blocked] as unknown as Move[];
  delete holed[1];
  expect(() => checkMoves(holed, 'behind-sheet')).toThrow('move 2 has no kind that is known, but undefined');
});
