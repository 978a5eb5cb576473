import { expect, test } from 'vitest';
import { trustAddressesBelow } from '../../src/screen/trusted-addresses.ts';

test('trustAddressesBelow(folder) lets scripts be started from that folder alone', () => {
  let trusted: (address: string) => string | null = () => 'not asked';
  trustAddressesBelow('https://set.example/even/', {
    createPolicy: (name, rules) => {
      expect(name).toBe('default');
      expect(Object.keys(rules)).toEqual(['createScriptURL']); // of text, nothing
      trusted = rules.createScriptURL;
    },
  });
  for (const address of ['https://set.example/even/assets/a.js', 'offline.js'])
    expect(trusted(address)).toBe(address);
  for (const address of [
    'https://set.example/a.js',
    '../a.js',
    'https://elsewhere.example/even/a.js',
    'data:,a',
    'blob:a',
  ])
    expect(trusted(address)).toBeNull();
});

test('trustAddressesBelow(folder) does without where the browser knows no such thing', () => {
  expect(() => trustAddressesBelow('https://set.example/', undefined)).not.toThrow();
});
