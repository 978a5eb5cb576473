import { expect, test } from 'vitest';
import type { Move } from '../../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { decimals, percent, signed, stops } from '../../../src/screen/words/figures.ts';
import { isAlternative, moveWords } from '../../../src/screen/words/move-words.ts';
import { directionWords, placeWords } from '../../../src/screen/words/place-words.ts';
import { wholeFraction } from '../../../src/screen/words/progress-words.ts';
import { expectWithin } from '../../expect-within.ts';

/** With plain spaces, where a line may not break. */
const spaced = (text: string) => text.replaceAll('\u00a0', ' ');

test('figures carry a true minus sign, and none at zero', () => {
  expect([decimals(-0.34, 1), decimals(-0.02, 1), signed(3.2, 0), signed(-0.2, 0)]).toEqual([
    '−0.3',
    '0.0',
    '+3',
    '0',
  ]);
  expect(
    [stops(0.6), stops(1), stops(1.04), stops(1.04, 2), stops(1.2), stops(-0.25, 2)].map(spaced),
  ).toEqual(['0.6 stop', '1.0 stop', '1.0 stop', '1.04 stops', '1.2 stops', '−0.25 stop']);
});

test('percent(share) says all or nothing only where it is', () => {
  expect([0, 0.001, 0.5, 0.999, 1].map((share) => spaced(percent(share)))).toEqual([
    '0 %',
    'under 1 %',
    '50 %',
    'over 99 %',
    '100 %',
  ]);
  expect([0, 0.0004, 0.125, 0.9997, 1].map((share) => spaced(percent(share, 1)))).toEqual([
    '0.0 %',
    'under 0.1 %',
    '12.5 %',
    'over 99.9 %',
    '100.0 %',
  ]);
});

test('placeWords(point) names nine places and the nearness of the centre', () => {
  expect(
    [
      { x: 0.52, y: 0.47 },
      { x: 0.5, y: 0.4 },
      { x: 0.3, y: 0.5 },
      { x: 0.3, y: 0.7 },
      { x: 0.95, y: 0.02 },
      { x: 0.45, y: 0.99 },
    ].map((at) => placeWords(at)),
  ).toEqual([
    'the centre',
    'just above centre',
    'left of centre',
    'below centre to the left',
    'the top right corner',
    'the bottom edge',
  ]);
});

test('directionWords(angle) counts clockwise from the right', () => {
  expect([0, 45, 90, 180, 270, -90, 359].map(directionWords)).toEqual([
    'right',
    'down right',
    'down',
    'left',
    'up',
    'up',
    'right',
  ]);
});

const PLAIN = { bringsEv: null, toward: null, caution: null };
const SLIDE = {
  ...PLAIN,
  kind: 'slide-lamp',
  lamp: 0,
  rightMm: null,
  downMm: null,
  rightFrameWidths: null,
  downFrameWidths: null,
} as const;
const MOVES: readonly [Move, string][] = [
  [{ ...PLAIN, kind: 'balance-lamps', lamp: 0, stops: -0.4 }, 'Turn the light down by 0.4 stop.'],
  [
    { ...PLAIN, kind: 'add-diffusion' },
    'Hang a second layer of diffusion a hand’s breadth behind the first, on the light’s side; it costs about a stop (common practice, no published source).',
  ],
  [
    { ...PLAIN, kind: 'white-balance', miredShift: -12, duvShift: 0.0021 },
    'Set the camera’s white balance so that the picture turns 12 mired cooler (its kelvin setting lower, to about 5160 K where it stood at 5500 K) and 0.0021 Duv greener.',
  ],
  [
    { ...PLAIN, kind: 'block-stray', fromDeg: 225 },
    'Block the spill that comes from the top left: flag it, or switch it off.',
  ],
  [
    { ...PLAIN, kind: 'frame-tighter', left: 0.1, top: 0, right: 0.9, bottom: 0.8 },
    'Frame tighter: leave out 10 % of the frame at the left, 10 % at the right and 20 % at the bottom.',
  ],
  [
    { ...PLAIN, kind: 'expose', stops: -1 },
    'Expose 1.0 stop less, so that the hottest part stands a stop below clipping.',
  ],
];

for (const [move, sentence] of MOVES)
  test(`moveWords says: ${sentence}`, () => {
    expect(spaced(moveWords(move, { ...UNKNOWN_SETUP, lampDistanceMm: [600] }, 'cm').text)).toBe(sentence);
  });

test('moveWords(white balance) sends the camera’s kelvin setting to the light that the picture was warmer by', () => {
  for (const cast of [-60, -15, -4, 4, 15, 150]) {
    const move: Move = { ...PLAIN, kind: 'white-balance', miredShift: -cast, duvShift: 0 };
    const said = spaced(moveWords(move, UNKNOWN_SETUP, 'cm').text);
    const [, turns, way, kelvin] = said.match(/mired (\w+) \(its kelvin setting (\w+), to about (\d+) K/)!;
    expect([turns, way]).toEqual(cast > 0 ? ['cooler', 'lower'] : ['warmer', 'higher']);
    expectWithin(Number(kelvin), 1e6 / (1e6 / 5500 + cast), 5.01);
  }
  const bluest: Move = { ...PLAIN, kind: 'white-balance', miredShift: 160, duvShift: 0 };
  expect(moveWords(bluest, UNKNOWN_SETUP, 'cm').text).toContain(
    'its kelvin setting higher, as far as it goes',
  );
});

const TIGHTER = { ...PLAIN, kind: 'frame-tighter', left: 0.1, top: 0, right: 1, bottom: 1 } as const;
const EXPOSE = { ...PLAIN, kind: 'expose', stops: -1 } as const;
const OR: readonly [readonly Move[], boolean][] = [
  [[TIGHTER], false],
  [[EXPOSE, TIGHTER], false],
  [[{ ...PLAIN, kind: 'white-balance', miredShift: 9, duvShift: 0 }, TIGHTER], false],
  [[{ ...SLIDE, toward: 0 }, TIGHTER], true],
  [[EXPOSE, { ...PLAIN, kind: 'block-stray', fromDeg: 0 }, TIGHTER], true],
  [[{ ...PLAIN, kind: 'add-diffusion' }, TIGHTER], true],
];
test.each(OR)('among %j the tighter frame is the alternative: %s', (moves, isOne) => {
  expect(moves.map((move) => isAlternative(move, moves))).toEqual(
    moves.map(({ kind }) => isOne && kind === 'frame-tighter'),
  );
  expect(spaced(moveWords(TIGHTER, UNKNOWN_SETUP, 'cm', moves).text)).toBe(
    isOne
      ? 'Or, if nothing can be moved, frame tighter: leave out 10 % of the frame at the left.'
      : 'Frame tighter: leave out 10 % of the frame at the left.',
  );
});

test('moveWords(move) says what it brings only where that is not nothing', () => {
  const brings = [null, 0, 0.04, -0.049, 0.05, 0.31, -0.2].map(
    (bringsEv) => moveWords({ ...TIGHTER, bringsEv }, UNKNOWN_SETUP, 'cm').brings,
  );
  expect(brings.map((words) => words && spaced(words))).toEqual([
    null,
    null,
    null,
    null,
    'takes off 0.1 stop',
    'takes off 0.3 stop',
    'adds 0.2 stop',
  ]);
});

test('moveWords(move) that adds by itself says that it belongs with the others, where there are others', () => {
  const adds = { ...SLIDE, toward: 0, bringsEv: -0.21 };
  const brings = (moves: readonly Move[]) => moveWords(adds, UNKNOWN_SETUP, 'cm', moves).brings;
  expect(spaced(brings([adds])!)).toBe('adds 0.2 stop');
  expect(spaced(brings([adds, EXPOSE])!)).toBe('adds 0.2 stop');
  const power = { ...PLAIN, kind: 'balance-lamps', lamp: 1, stops: 0.3 } as const;
  expect(spaced(brings([power, adds])!)).toBe('adds 0.2 stop by itself: make it together with the others');
  expect(spaced(brings([{ ...power, bringsEv: -0.3 }, adds])!)).toBe('adds 0.2 stop by itself');
});

test('moveWords(diffusion) in front of a wall has no first layer to hang a second behind', () => {
  const diffusion: Move = { ...PLAIN, kind: 'add-diffusion' };
  expect(moveWords(diffusion, { ...UNKNOWN_SETUP, arrangement: 'bounced' }, 'cm').text).toBe(
    'Hang a layer of diffusion well clear of the head; it costs about a stop (common practice, no published source).',
  );
});

test('moveWords(move of two lights) names the side, says what it brings and passes its caution on', () => {
  const move: Move = { ...SLIDE, lamp: 1, toward: 0, bringsEv: 0.3, caution: 'Weight the stand first.' };
  expect(moveWords(move, { ...UNKNOWN_SETUP, arrangement: 'two-lamps' }, 'cm')).toEqual({
    text: 'Slide the right light right, a little at a time.',
    brings: 'takes off 0.3\u00a0stop',
    caution: 'Weight the stand first.',
  });
});

test('wholeFraction(phase) never goes back, from 0 to 1', () => {
  const phases = ['opening', 'decoding', 'converting', 'averaging', 'fitting', 'measuring'] as const;
  const way = phases.flatMap((phase) => [0, 0.5, 1].map((fraction) => wholeFraction(phase, fraction)));
  expect(way[0]).toBe(0);
  expectWithin(way.at(-1)!, 1, 1e-12);
  for (let i = 1; i < way.length; i++) expect(way[i]!).toBeGreaterThanOrEqual(way[i - 1]! - 1e-12);
});
