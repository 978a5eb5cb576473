import { expect, test } from 'vitest';
import { cannotTell } from '../../../src/engine/diagnosis/cannot-tell.ts';
import type { SetReading } from '../../../src/engine/lamps/set-reading.ts';
import type { ModelledCause } from '../../../src/engine/lamps/taken-out.ts';
import type { Finding } from '../../../src/engine/reading.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { diagnosisOf } from '../diagnosis/measurement-of.ts';
import { namedCauses } from './named-causes.ts';

/** What the engine says of two causes that it cannot tell apart. */
function untold(causes: readonly [ModelledCause, ModelledCause], arrangement: 'behind-sheet' | 'panel') {
  const rivals = [{ causes, ev: 0.5, plusMinusEv: 0.01, confidence: 1 }];
  const set = {
    rivals,
    causes: [],
    isSpillTold: true,
    secondFrames: [],
  } as Partial<SetReading> as SetReading;
  return cannotTell({ ...diagnosisOf({ ev: () => 0 }), set, setup: { ...UNKNOWN_SETUP, arrangement } });
}

test.each([
  ['behind-sheet', ['off-centre', 'aimed-off']],
  ['behind-sheet', ['too-close', 'hot-spot']],
  ['behind-sheet', ['lens-falloff', 'too-close']],
  ['behind-sheet', ['lens-falloff', 'hot-spot']],
  ['panel', ['lens-falloff', 'hot-spot']],
] as const)('what can’t be told %s: the sentence names %s', (arrangement, causes) => {
  const named = namedCauses(untold(causes, arrangement));
  expect(named.map((each) => each.causes)).toEqual([causes]);
});

test('light of the room that can’t be told names spill', () => {
  const set = {
    rivals: [],
    secondFrames: [],
    spill: { share: { value: 0.1, plusMinus: 0.05 } },
    isSpillTold: false,
    causes: [{ cause: 'stray-light', ev: 0.3, plusMinusEv: 0.1, deltaUv: 0, confidence: 0.9 }],
  } as unknown as SetReading;
  const named = namedCauses(cannotTell({ ...diagnosisOf({ ev: () => 0 }), set }));
  expect(named.map(({ causes }) => causes)).toEqual([['stray-light']]);
});

test('what describes the light, doubts the frame or is finer than a cell names no cause', () => {
  const finding = (kind: Finding['kind']) => ({ kind, says: '' }) as Finding;
  const kinds = ['not-blank', 'slope', 'rim-in-view', 'cast', 'creases', 'bands'] as const;
  expect(namedCauses(kinds.map(finding)).flatMap(({ causes }) => causes)).toEqual(['rim-in-view', 'bands']);
});

test('a sentence of “can’t tell” whose causes are not known is not passed over', () => {
  expect(() => namedCauses([{ kind: 'cannot-tell', says: 'Who knows.' } as Finding])).toThrow('Who knows.');
});
