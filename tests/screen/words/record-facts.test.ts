import { expect, test } from 'vitest';
import type { CleanWhite } from '../../../src/engine/aims/clean-white.ts';
import { TOLERANCES } from '../../../src/engine/tolerances.ts';
import { recordFacts } from '../../../src/screen/words/record-facts.ts';
import type { FullTake } from '../../../src/takes/take.ts';
import { heldTake } from '../../takes/held-take.ts';

const factsOf = (take: FullTake) =>
  Object.fromEntries(
    recordFacts(take, [take], 'cm').map(([name, says]) => [name, says.replaceAll('\u00a0', ' ')]),
  );

test('the verdict goes by the limit that the take itself was judged by, which stands beside it', () => {
  const plain = heldTake('take-1');
  for (const tolerance of TOLERANCES) {
    const facts = factsOf({ ...plain, judgedBy: { ...plain.judgedBy, tolerance } });
    expect(facts['Judged by']).toBe(`${tolerance.name}. ${tolerance.source}`);
    const asked =
      tolerance.measure === 'range' ? `${tolerance.limit}` : `${Math.round(tolerance.limit * 100)} %`;
    expect(facts.Verdict).toContain(`you asked for ${asked}`);
  }
});

test('an aim’s own verdict comes first, and the aim beside it', () => {
  const plain = heldTake('take-1');
  expect(factsOf(plain)['The background is to be']).toBe('even');
  const aim = { kind: 'clean-white', whiteCode: null, mostOverEv: 2 } as const;
  const aimed: CleanWhite = {
    ...{ kind: 'clean-white', aim, reachedShare: 0, reachedShareLeast: 0, reachedShareMost: 0 },
    ...{ changeEv: 1.1, changePlusMinusEv: 0.02, overEv: 0.2, overPlusMinusEv: 0.02 },
    ...{ isOverAtLeast: false, isUnlitInPart: false, verdict: 'yes' },
  };
  const facts = factsOf({
    ...plain,
    report: { ...plain.report, aimed },
    judgedBy: { ...plain.judgedBy, aim },
  });
  expect(facts['The background is to be']).toBe(
    'clean white, where the file clips, the hottest at most 2 stops over it',
  );
  expect(facts.Verdict).toMatch(/^Clean white is in reach: .* As shot, none .* As an even background: /);
});

test('exposure, level and note are in it where there are any', () => {
  const plain = heldTake('take-1');
  expect(factsOf(plain)).toMatchObject({
    'Stops below clipping': 'hottest 0.90 ± 0.02, mean 1.00 ± 0.02, darkest 1.10 ± 0.02',
  });
  expect(factsOf(plain)).not.toHaveProperty('Exposure');
  expect(factsOf(plain)).not.toHaveProperty('Note');
  const { reading } = plain;
  const exposure = { seconds: 1 / 125, fNumber: 8, iso: 100, focalLengthMm: null, takenAt: null };
  const noted = {
    ...plain,
    note: 'grid cloth',
    reading: { ...reading, frame: { ...reading.frame, exposure } },
  };
  expect(factsOf(noted)).toMatchObject({ Exposure: '1/125 s, f/8.0, ISO 100', Note: 'grid cloth' });
});
