import { expect, test } from 'vitest';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { isSrgbResponse, srgbResponse } from '../../../src/engine/response/srgb-response.ts';
import { expectWithin } from '../../expect-within.ts';
import { storedPicture } from '../frame/stored-picture.ts';

test('srgbResponse() is sRGB’s curve at every code, in stops below white', () => {
  const { channels, plusMinusEv } = srgbResponse();
  expect(channels.red).toHaveLength(256);
  expect(channels.red[255]).toBe(0);
  // IEC 61966-2-1: code 128 is 0.21586, code 10 lies on the straight part's end: 10 / 255 / 12.92
  expectWithin(2 ** channels.green[128]!, 0.215861, 5e-7);
  expectWithin(2 ** channels.blue[10]!, 10 / 255 / 12.92, 1e-12);
  expect(plusMinusEv).toBe(0);
});

test('srgbResponse() reads a plain sRGB file as it is read without a response', () => {
  const plain = linearise(storedPicture()).frame.lightAtCode.green;
  const byResponse = linearise(storedPicture(), srgbResponse()).frame.lightAtCode.green;
  for (let code = 0; code < 256; code++) expectWithin(byResponse[code]!, plain[code]!, 1e-10);
});

test('isSrgbResponse(response) knows it after a journey through JSON, and no other', () => {
  const travelled = JSON.parse(JSON.stringify(srgbResponse()));
  expect(isSrgbResponse(travelled)).toBe(true);
  expect(isSrgbResponse({ ...travelled, plusMinusEv: 0.01 })).toBe(false);
  const bent = travelled.channels.red.map((stops: number) => 1.1 * stops);
  expect(isSrgbResponse({ ...travelled, channels: { ...travelled.channels, blue: bent } })).toBe(false);
});
