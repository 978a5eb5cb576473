import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { checkResponse } from '../../../src/engine/response/check-response.ts';
import { srgbResponse } from '../../../src/engine/response/srgb-response.ts';

function refusal(value: unknown): string {
  try {
    checkResponse(value);
  } catch (error) {
    expect(error).toBeInstanceOf(EngineError);
    expect((error as EngineError).code).toBe('wrong-profile');
    return (error as EngineError).message;
  }
  return 'taken';
}

const good = srgbResponse();
const withRed = (change: (curve: number[]) => void) => {
  const red = [...good.channels.red];
  change(red);
  return { ...good, channels: { ...good.channels, red } };
};

test('checkResponse(value) takes what readBracket and srgbResponse give, also from JSON', () => {
  expect(checkResponse(good)).toBe(good);
  expect(refusal(JSON.parse(JSON.stringify(good)))).toBe('taken');
});

test('checkResponse(value) names the field that is not as it should be, and what to do', () => {
  expect(refusal(null)).toMatch(/the response is null; expected an object\. Recover it again/);
  expect(refusal({ ...good, schema: 'evenfield.response/2' })).toMatch(
    /schema is evenfield\.response\/2; expected evenfield\.response\/1/,
  );
  expect(refusal({ ...good, camera: 7 })).toContain('camera is 7');
  expect(refusal({ ...good, channels: { red: good.channels.red } })).toContain('channels.green is missing');
  expect(refusal(withRed((curve) => curve.pop()))).toContain('channels.red is a list of 255; expected 256');
  expect(refusal(withRed((curve) => curve.fill(Number.NaN, 3, 4)))).toContain('channels.red[3] is no number');
  expect(refusal(withRed((curve) => curve.fill(-0.01, 9, 10)))).toMatch(/channels\.red\[10\] is -8.*below/);
  expect(refusal(withRed((curve) => curve.fill(0.5, 255, 256)))).toContain('channels.red[255] is 0.5');
  expect(refusal(withRed((curve) => curve.fill(0)))).toContain('the same light at every code');
  expect(refusal({ ...good, plusMinusEv: -1 })).toContain('plusMinusEv is -1');
  expect(refusal({ ...good, plusMinusEv: 1e308 })).toContain(
    'plusMinusEv is 1e+308; expected a finite number from 0 to',
  );
  expect(refusal(withRed((curve) => curve.fill(-1e300, 0, 1)))).toContain('channels.red[0] is -1e+300');
  expect(refusal({ ...good, fromStops: 'many' })).toContain('fromStops is many');
  expect(refusal({ ...good, madeFrom: {} })).toContain('madeFrom.frames is missing');
  const seen = (red: unknown) =>
    refusal({ ...good, madeFrom: { ...good.madeFrom, codes: { red, green: [9, 240], blue: [9, 240] } } });
  expect(seen([9, 240])).toBe('taken');
  for (const red of [undefined, [9], [240, 9], [9, 256], [0.5, 9]])
    expect(seen(red)).toContain('madeFrom.codes.red');
});
