import { expect, test } from 'vitest';
import { KeptResponses, type TextStorage } from '../../src/sources/kept-responses.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';

function storage(): TextStorage & { readonly held: Map<string, string> } {
  const held = new Map<string, string>();
  return {
    held,
    getItem: (key) => held.get(key) ?? null,
    setItem: (key, text) => void held.set(key, text),
    removeItem: (key) => void held.delete(key),
  };
}

const ofA = responseOf(toneCurve(1.3), { camera: 'Model A' });
const ofB = responseOf(toneCurve(1.2), { camera: 'Model B' });

test('KeptResponses keeps one of each camera over a reload, and says which are to be gone by', () => {
  const its = storage();
  const kept = new KeptResponses(() => its);
  expect(kept.of('Model A')).toBe(null);
  kept.keep(ofA, false);
  kept.keep(ofB, true);
  const reloaded = new KeptResponses(() => its);
  expect(reloaded.of('Model A')).toEqual({ response: ofA, isUsed: false });
  expect(reloaded.used()).toEqual([ofB]);
  reloaded.keep(ofA, true);
  expect(reloaded.used().map(({ camera }) => camera)).toEqual(['Model A', 'Model B']);
  reloaded.forget('Model B');
  expect(new KeptResponses(() => its).used()).toEqual([ofA]);
  expect(reloaded.of('Model B')).toBe(null);
});

test('KeptResponses never goes by one of a camera without a name unasked', () => {
  const kept = new KeptResponses(storage);
  const its = storage();
  const unnamed = new KeptResponses(() => its);
  unnamed.keep({ ...ofA, camera: null }, true);
  expect(unnamed.of(null)?.isUsed).toBe(true);
  expect(unnamed.used()).toEqual([]);
  expect(kept.used()).toEqual([]);
});

test('KeptResponses takes what is damaged for nothing, and says where nothing can be kept', () => {
  const its = storage();
  const kept = new KeptResponses(() => its);
  kept.keep(ofA, true);
  for (const [key, text] of its.held) if (text.includes('channels')) its.held.set(key, text.slice(0, 100));
  expect(kept.of('Model A')).toBe(null);
  expect(kept.used()).toEqual([]);
  its.held.set('evenfield.responses/1', '{');
  expect(kept.used()).toEqual([]);
  const full: TextStorage = {
    ...storage(),
    setItem: () => {
      throw new Error('quota');
    },
  };
  expect(() => new KeptResponses(() => full).keep(ofA, true)).toThrow(
    expect.objectContaining({ code: 'storage-full', message: expect.stringContaining('quota') }),
  );
  const none = new KeptResponses(() => null);
  expect(() => none.keep(ofA, true)).toThrow(expect.objectContaining({ code: 'storage-full' }));
  expect(none.of('Model A')).toBe(null);
  expect(() => none.forget('Model A')).not.toThrow();
});
