import { expect, test } from 'vitest';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { correctFrame } from '../../../src/engine/correct-frame.ts';
import { impersonalProfile } from '../../../src/engine/export/impersonal-profile.ts';
import { madeProfile } from '../../../src/engine/export/made-profile.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { iccElements, readIccProfile } from '../../../src/engine/intake/read-icc-profile.ts';
import { nodePlatform } from '../../node-platform.ts';
import { toPng } from '../../synthetic/encode.ts';
import { latticeOf, profileOf } from '../correct/profile-of.ts';
import { iccBytes, nameElement } from '../intake/icc-bytes.ts';
import { flat } from '../painted-frames.ts';
import { PERSONAL, personalWordsIn } from './personal-frame.ts';
import { wholeFile } from './read-back.ts';

const made = iccElements(madeProfile({ ...SRGB, name: 'Workshop colours' }, 'srgb'))!;
const text = (of: string) => new Uint8Array(Buffer.from(`text\0\0\0\0${PERSONAL}-${of}\0`));

/** A profile as a display's is made: who made the display, which one it is, and notes of the program. */
function ofDisplay(): Uint8Array {
  const bytes = iccBytes({
    ...Object.fromEntries(made),
    ...{
      dmnd: text('maker'),
      dmdd: text('model-serial'),
      meta: text('notes'),
      vcgt: text('card'),
      ZzZz: text('own'),
    },
  });
  bytes.set(Buffer.from(`ACMEZzOw`), 48);
  bytes.fill(7, 84, 100);
  return bytes;
}

test('impersonalProfile() keeps every colour and the name, and nothing of one display', () => {
  const display = ofDisplay();
  expect(personalWordsIn(display)).toHaveLength(5);
  const left = impersonalProfile(display)!;
  expect(personalWordsIn(left)).toEqual([]);
  expect([...left.subarray(48, 56), ...left.subarray(80, 100)]).toEqual(Array(28).fill(0));
  expect(readIccProfile(left)).toEqual(readIccProfile(display));
  expect(readIccProfile(left)).toMatchObject({ kind: 'matrix', description: 'Workshop colours' });
  expect(new DataView(left.buffer).getUint32(0)).toBe(left.length);
});

test('impersonalProfile() keeps an element that tags share once, and makes nothing of what is no profile', () => {
  const plain = madeProfile(SRGB, 'srgb');
  const left = impersonalProfile(plain)!;
  expect(left.length).toBe(plain.length);
  expect(iccElements(left)).toEqual(iccElements(plain));
  expect(impersonalProfile(Uint8Array.of(1, 2, 3))).toBeNull();
  const astray = iccBytes({ desc: nameElement('a') });
  new DataView(astray.buffer).setUint32(136, 1e6);
  expect(impersonalProfile(astray)).toBeNull();
});

test.each(['tiff', 'png', 'jpeg'] as const)(
  'a frame corrected into a %s carries its profile so',
  async (format) => {
    const bytes = toPng(flat(180), { icc: ofDisplay() });
    const nothing = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
    const written = async (notes: 'all' | 'impersonal') => {
      const { parts } = await correctFrame({ name: 'a', bytes }, nothing, { format, notes }, nodePlatform);
      const file = await wholeFile(parts);
      const { iccProfile } = await decodeImage(file, nodePlatform);
      return iccProfile!;
    };
    expect(personalWordsIn(await written('all'))).toHaveLength(5);
    const left = await written('impersonal');
    expect(personalWordsIn(left)).toEqual([]);
    expect(readIccProfile(left)).toEqual(readIccProfile(ofDisplay()));
  },
);
