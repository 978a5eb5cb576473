import { expect, test } from 'vitest';
import { NO_DOUBT } from '../../../src/engine/frame/light-doubt.ts';
import { lightOfCodes } from '../../../src/engine/frame/light-of-codes.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { srgbResponse } from '../../../src/engine/response/srgb-response.ts';
import { expectWithin } from '../../expect-within.ts';
import { exifBlock } from '../../synthetic/exif-block.ts';
import { toneCurve } from '../../synthetic/tone-curve.ts';
import { responseOf } from '../response/response-of.ts';
import { storedPicture } from './stored-picture.ts';

const response = responseOf(toneCurve(1.4));

test('linearise(stored, response) reads light by the response, in the primaries that the file states', () => {
  const { frame } = linearise(storedPicture({ exifColourSpace: 1 }), response);
  expect(frame.light).toBe('response-recovered');
  expect(frame.doubt).toEqual({ ...NO_DOUBT, responseEv: 0.01 });
  for (const code of [1, 40, 128, 254])
    expectWithin(Math.log2(frame.lightAtCode.red[code]!), response.channels.red[code]!, 1e-9);
  expect(frame.lightAtCode.red[255]).toBe(1);
  expect(frame.lightAtCode.blue).toBe(frame.lightAtCode.green);
  expect(frame.space).toEqual(linearise(storedPicture({ exifColourSpace: 1 })).frame.space);
  expect(frame.lightSays).toMatch(/response of the camera Model A, .* over 4 stops, .* ± 0\.010 stop\.$/);
  const codes = { red: [30, 240], green: [31, 250], blue: [30, 240] } as const;
  const seen = { ...response, madeFrom: { ...response.madeFrom, codes } };
  const bounded = linearise(storedPicture(), seen).frame;
  expect(bounded.lightSays).toMatch(/from code 31 to 250; beyond these it is drawn on\./);
  const { green } = bounded.lightAtCode;
  expect(bounded.doubt.responseSeen).toEqual([green[31], green[250]]);
  const own = linearise(storedPicture({ format: 'jpeg' })).frame;
  expect([own.light, own.doubt.toneCurve]).toEqual(['display-decoded', 'counted']);
});

test('linearise(stored, response) keeps the curves of three channels apart', () => {
  const { red } = responseOf(toneCurve(1.2)).channels;
  const { lightAtCode } = linearise(storedPicture(), {
    ...response,
    channels: { ...response.channels, red },
  }).frame;
  expectWithin(Math.log2(lightAtCode.red[100]!), red[100]!, 1e-9);
  expectWithin(Math.log2(lightAtCode.blue[100]!), response.channels.blue[100]!, 1e-9);
});

test('linearise(stored, response) says where the frame’s Exif names another camera', () => {
  const says = (model: string) =>
    linearise(storedPicture({ exif: exifBlock({ model }) }), response).frame.lightSays;
  expect(says('Model A')).not.toContain('another');
  expect(says('Model B')).toMatch(/shot with another camera \(Model B\)/);
});

test('linearise(stored, response) calls exact sRGB what it is', () => {
  const { frame } = linearise(storedPicture(), srgbResponse());
  expect(frame.light).toBe('response-recovered');
  expect(frame.doubt).toEqual(NO_DOUBT);
  expect(frame.lightSays).toContain('known to be coded by sRGB');
});

test('linearise(stored, response) leaves files alone that are no camera’s 8-bit picture, and says so', () => {
  const deep = storedPicture({ bitsPerSample: 16, samples: new Uint16Array(768) });
  for (const [stored, why] of [
    [deep, '16 bits'],
    [storedPicture({ gamma: 1 }), 'coded linearly'],
  ] as const) {
    const { frame } = linearise(stored, response);
    const plain = linearise(stored).frame;
    expect(frame.lightAtCode.green).toEqual(plain.lightAtCode.green);
    expect([frame.light, frame.doubt]).toEqual([plain.light, plain.doubt]);
    expect(frame.lightSays).toMatch(new RegExp(`response was not used: .*${why}`));
  }
});

test('lightOfCodes(stored, 16, response) passes through the light of all 8-bit codes, and rises between', () => {
  const { green } = lightOfCodes(storedPicture(), 16, response);
  expect(green).toHaveLength(65536);
  for (let code = 1; code < 256; code++)
    expectWithin(Math.log2(green[code * 257]!), response.channels.green[code]!, 1e-9);
  expect(green.findIndex((light, code) => code > 0 && light < green[code - 1]!)).toBe(-1);
});
