import { expect, test } from 'vitest';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { transformVector3 } from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';
import { curveElement, fixedElement, iccBytes, nameElement, SRGB_COLORANTS } from '../intake/icc-bytes.ts';
import { storedPicture } from './stored-picture.ts';

/** sRGB's white, 0.3127 / 0.3290, as XYZ of Y = 1. */
const D65_XYZ = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329] as const;

const profileOf = (curve: Uint8Array, more: Readonly<Record<string, Uint8Array>> = {}) =>
  iccBytes({
    desc: nameElement('Studio'),
    ...SRGB_COLORANTS,
    rTRC: curve,
    gTRC: curve,
    bTRC: curve,
    ...more,
  });

test('linearise(stored) decodes a file without a profile as sRGB and says that it is assumed', () => {
  const { frame, colourProfile } = linearise(storedPicture());
  expect(colourProfile).toBe('sRGB (assumed)');
  expect(frame.light).toBe('display-decoded');
  expect(frame.lightSays).toMatch(
    /^The file names no colour profile, so sRGB is assumed\. A tone curve .* is not undone\.$/,
  );
  expect(frame.space).toEqual(SRGB);
  // IEC 61966-2-1: code 128 is 0.21586 (table of checks, sRGB)
  expectWithin(frame.lightAtCode.red[128]!, 0.215861, 5e-7);
  expect([frame.lightAtCode.red[0], frame.lightAtCode.red[255]]).toEqual([0, 1]);
  expect(frame.lightAtCode.green).toBe(frame.lightAtCode.red);
});

test('linearise(stored) goes by what the file states of itself', () => {
  expect(linearise(storedPicture({ exifColourSpace: 1 })).colourProfile).toBe('sRGB');
  expect(linearise(storedPicture({ sRgbStated: true })).frame.lightSays).toContain(
    'The file is decoded as sRGB, as it states',
  );
  expect(linearise(storedPicture({ exifColourSpace: 65535 })).frame.lightSays).toContain('uncalibrated');
  const stated = linearise(storedPicture({ gamma: 2.2 }));
  expect(stated.colourProfile).toBe('sRGB primaries, exponent 2.2');
  expectWithin(stated.frame.lightAtCode.blue[100]!, (100 / 255) ** 2.2, 1e-15);
  const wide = {
    white: [0.3457, 0.3585],
    red: [0.7347, 0.2653],
    green: [0.1596, 0.8404],
    blue: [0.0366, 0.0001],
  } as const;
  const { frame } = linearise(storedPicture({ gamma: 1.8, chromaticities: wide }));
  expect(frame.space).toMatchObject({ primaries: { red: [0.7347, 0.2653] }, white: [0.3457, 0.3585] });
  transformVector3(frame.toXyz, [1, 1, 1]).forEach((value, i) => {
    expectWithin(value, D65_XYZ[i]!, 1e-12);
  });
  const line = { ...wide, red: [0.3, 0.3], green: [0.4, 0.4], blue: [0.5, 0.5] } as const;
  expect(linearise(storedPicture({ chromaticities: line })).frame.space).toEqual(SRGB);
});

test('linearise(stored) calls only linear 16 bits the light of the scene', () => {
  const sixteen = { bitsPerSample: 16, samples: new Uint16Array(768) } as const;
  const linear = profileOf(curveElement([]));
  const basis = (parts: Parameters<typeof storedPicture>[0]) => linearise(storedPicture(parts)).frame.light;
  expect(basis({ ...sixteen, iccProfile: linear })).toBe('scene-linear');
  expect(basis({ ...sixteen, gamma: 1 })).toBe('scene-linear');
  expect(basis({ ...sixteen, iccProfile: profileOf(curveElement([0, 65535])) })).toBe('scene-linear');
  expect(basis({ ...sixteen, iccProfile: profileOf(curveElement([1.01 * 256])) })).toBe('display-decoded');
  expect(basis({ ...sixteen })).toBe('display-decoded');
  expect(basis({ gamma: 1 })).toBe('display-decoded');
  expect(linearise(storedPicture({ gamma: 1 })).frame.lightSays).toContain('in 8 bits');
});

test('linearise(stored) says so where a profile is broken, or holds tables only', () => {
  const says = (iccProfile: Uint8Array) => linearise(storedPicture({ iccProfile })).frame.lightSays;
  expect(says(new Uint8Array(0))).toMatch(/profile is broken \(it can not be unpacked.*so sRGB is assumed/);
  expect(says(iccBytes({ desc: nameElement('Scan'), A2B0: new Uint8Array(40) }))).toMatch(
    /“Scan” holds tables only, which were not read, so sRGB is assumed/,
  );
});

test('linearise(stored) makes RGB 1, 1, 1 exactly D65, also where a profile is rounded or has another white', () => {
  const dirty = profileOf(curveElement([]), { bXYZ: fixedElement('XYZ ', [0.1436, 0.0606, 0.7139]) });
  const unadapted = profileOf(curveElement([]), {
    rXYZ: fixedElement('XYZ ', [0.4124, 0.2126, 0.0193]),
    gXYZ: fixedElement('XYZ ', [0.3576, 0.7152, 0.1192]),
    bXYZ: fixedElement('XYZ ', [0.1805, 0.0722, 0.9505]),
  });
  for (const iccProfile of [dirty, unadapted]) {
    const { frame } = linearise(storedPicture({ iccProfile }));
    transformVector3(frame.toXyz, [1, 1, 1]).forEach((value, i) => {
      expectWithin(value, D65_XYZ[i]!, 1e-12);
    });
  }
});

test('linearise(stored) gives white the light 1 in every channel, however a curve was rounded', () => {
  const curves = {
    rTRC: curveElement([0, 65530]),
    gTRC: curveElement([0, 65535]),
    bTRC: curveElement([0, 65000]),
  };
  const { lightAtCode } = linearise(storedPicture({ iccProfile: profileOf(curveElement([]), curves) })).frame;
  expect([lightAtCode.red[255], lightAtCode.green[255], lightAtCode.blue[255]]).toEqual([1, 1, 1]);
});

test('linearise(stored) reads a grey picture by one curve, whatever profile it carries', () => {
  const curves = { rTRC: curveElement([512]), gTRC: curveElement([256]), bTRC: curveElement([512]) };
  const grey = storedPicture({
    channels: 1,
    samples: new Uint8Array(256),
    iccProfile: profileOf(curveElement([]), curves),
  });
  const { red, green, blue } = linearise(grey).frame.lightAtCode;
  expect(red === green && blue === green).toBe(true);
  const own = iccBytes({ desc: nameElement('Grey'), kTRC: curveElement([512]) }, { space: 'GRAY' });
  const { frame, colourProfile } = linearise({ ...grey, iccProfile: own });
  expect(colourProfile).toBe('Grey');
  expectWithin(frame.lightAtCode.red[51]!, 0.04, 1e-12);
});

test('linearise(stored) hands the samples on without a copy and sets the limits of each format', () => {
  const stored = storedPicture({
    format: 'jpeg',
    jpegDcSteps: { lumaCodes: 0.25, chromaCodes: 0.375, chromaBlockPx: 8 },
  });
  const { frame } = linearise(stored);
  expect(frame.samples).toBe(stored.samples);
  expect([frame.clipCode, frame.floorCode, frame.jpegDcSteps]).toEqual([
    254,
    1,
    { lumaCodes: 0.25, chromaCodes: 0.375, chromaBlockPx: 8 },
  ]);
  const png = linearise(storedPicture()).frame;
  expect([png.clipCode, png.floorCode, png.jpegDcSteps]).toEqual([255, 0, null]);
});
