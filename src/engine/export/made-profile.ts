import { bradfordMatrix } from '../colour/bradford.ts';
import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { D50 } from '../colour/white-points.ts';
import type { ToneCurve } from '../intake/tone-curve.ts';
import { type Matrix3, multiplyMatrix3 } from '../numeric/matrix3.ts';
import { latinBytes } from './png-chunk-bytes.ts';

/** A profile's curve from code to light: an exponent, sRGB's own, or an element taken from another profile. */
export type MadeCurve =
  | { readonly exponent: number }
  | Extract<ToneCurve, { kind: 'parametric' }>
  | 'srgb'
  | { readonly element: Uint8Array };

/**
 * An ICC profile of a colour space that is known by its chromaticities only, so that a file can say what it means to
 * readers that go by profiles.
 * Source: ICC.1:2010 (profile version 4.3), 7.2, 7.3, 8.3.3, 10.13 (multiLocalizedUnicode), 10.16, 10.18, 10.31.
 */
export function madeProfile({ name, primaries, white }: LinearRgbSpace, curve: MadeCurve): Uint8Array {
  const adaptation = bradfordMatrix(white, D50);
  const m = multiplyMatrix3(adaptation, rgbToXyzMatrix(primaries, white));
  const shaper = curveElement(curve);
  return profileOf('RGB ', {
    ...described(name),
    chad: fixedNumbers('sf32', adaptation),
    rXYZ: fixedNumbers('XYZ ', [m[0], m[3], m[6]]),
    gXYZ: fixedNumbers('XYZ ', [m[1], m[4], m[7]]),
    bXYZ: fixedNumbers('XYZ ', [m[2], m[5], m[8]]),
    rTRC: shaper,
    gTRC: shaper,
    bTRC: shaper,
  });
}

/** The same for grey, which has a curve only. */
export function madeGreyProfile(name: string, curve: MadeCurve): Uint8Array {
  return profileOf('GRAY', { ...described(name), kTRC: curveElement(curve) });
}

function described(name: string) {
  return {
    desc: textElement(name),
    cprt: textElement('No copyright: figures only'),
    wtpt: fixedNumbers('XYZ ', D50_XYZ),
  };
}

/** As the standard prints the illuminant of its connection space (ICC.1:2010, 7.2.16). */
const D50_XYZ = [0.9642, 1, 0.8249] as const;

function profileOf(space: 'RGB ' | 'GRAY', elements: Readonly<Record<string, Uint8Array>>): Uint8Array {
  const tags = Object.entries(elements);
  const places = new Map<Uint8Array, number>(); // tags may share an element
  let length = 132 + 12 * tags.length;
  for (const [, element] of tags) {
    if (places.has(element)) continue;
    places.set(element, length);
    length += (element.length + 3) & ~3;
  }
  const bytes = new Uint8Array(length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, length);
  view.setUint32(8, 0x04300000); // version 4.3
  bytes.set(latinBytes(`mntr${space}XYZ `), 12);
  [2026, 1, 1].forEach((part, i) => {
    view.setUint16(24 + 2 * i, part); // a date there must be; always the same, so that files are
  });
  bytes.set(latinBytes('acsp'), 36);
  D50_XYZ.forEach((value, i) => {
    view.setInt32(68 + 4 * i, Math.round(value * 65536));
  });
  view.setUint32(128, tags.length);
  tags.forEach(([tag, element], i) => {
    bytes.set(latinBytes(tag), 132 + 12 * i);
    view.setUint32(136 + 12 * i, places.get(element)!);
    view.setUint32(140 + 12 * i, element.length);
    bytes.set(element, places.get(element)!);
  });
  return bytes;
}

function fixedNumbers(type: string, numbers: readonly number[] | Matrix3): Uint8Array {
  const element = new Uint8Array(8 + 4 * numbers.length);
  element.set(latinBytes(type));
  const view = new DataView(element.buffer);
  numbers.forEach((number, i) => {
    view.setInt32(8 + 4 * i, Math.round(number * 65536));
  });
  return element;
}

/** Curves with a straight foot as function type 3 (sRGB's: IEC 61966-2-1), an exponent as type 0. */
function curveElement(curve: MadeCurve): Uint8Array {
  if (curve !== 'srgb' && 'element' in curve) return curve.element;
  const parameters =
    curve === 'srgb'
      ? [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045]
      : 'exponent' in curve
        ? [curve.exponent]
        : [curve.g, curve.a, curve.b, curve.c, curve.d];
  const element = new Uint8Array(12 + 4 * parameters.length);
  element.set(latinBytes('para'));
  const view = new DataView(element.buffer);
  view.setUint16(8, parameters.length === 1 ? 0 : 3);
  parameters.forEach((parameter, i) => {
    view.setInt32(12 + 4 * i, Math.round(parameter * 65536));
  });
  return element;
}

function textElement(text: string): Uint8Array {
  const element = new Uint8Array(28 + 2 * text.length);
  const view = new DataView(element.buffer);
  element.set(latinBytes('mluc'));
  view.setUint32(8, 1);
  view.setUint32(12, 12);
  element.set(latinBytes('enUS'), 16);
  view.setUint32(20, 2 * text.length);
  view.setUint32(24, 28);
  for (let i = 0; i < text.length; i++) view.setUint16(28 + 2 * i, text.charCodeAt(i));
  return element;
}
