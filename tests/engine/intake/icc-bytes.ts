/** A profile put together by hand: elements by tag, in a header of the given colour space and version. */
export function iccBytes(
  tags: Readonly<Record<string, Uint8Array>>,
  { space = 'RGB ', major = 4 }: { space?: string; major?: number } = {},
): Uint8Array {
  const names = Object.keys(tags);
  const parts: Uint8Array[] = [];
  let at = 132 + 12 * names.length;
  const head = new Uint8Array(at);
  const view = new DataView(head.buffer);
  head[8] = major;
  head.set(Buffer.from(`mntr${space}XYZ `, 'latin1'), 12);
  head.set(Buffer.from('acsp', 'latin1'), 36);
  view.setUint32(128, names.length);
  names.forEach((name, i) => {
    const element = tags[name]!;
    head.set(Buffer.from(name, 'latin1'), 132 + 12 * i);
    view.setUint32(136 + 12 * i, at);
    view.setUint32(140 + 12 * i, element.length);
    parts.push(element);
    at += element.length;
  });
  view.setUint32(0, at);
  return new Uint8Array(Buffer.concat([head, ...parts]));
}

/** An element of s15Fixed16 numbers: "XYZ " or "sf32". */
export function fixedElement(type: string, numbers: readonly number[]): Uint8Array {
  const element = new Uint8Array(8 + 4 * numbers.length);
  element.set(Buffer.from(type, 'latin1'));
  numbers.forEach((number, i) => {
    new DataView(element.buffer).setInt32(8 + 4 * i, Math.round(number * 65536));
  });
  return element;
}

export function curveElement(entries: readonly number[]): Uint8Array {
  const element = new Uint8Array(12 + 2 * entries.length);
  element.set(Buffer.from('curv', 'latin1'));
  const view = new DataView(element.buffer);
  view.setUint32(8, entries.length);
  entries.forEach((entry, i) => {
    view.setUint16(12 + 2 * i, entry);
  });
  return element;
}

export function parametricElement(functionType: number, parameters: readonly number[]): Uint8Array {
  const element = new Uint8Array(12 + 4 * parameters.length);
  element.set(Buffer.from('para', 'latin1'));
  const view = new DataView(element.buffer);
  view.setUint16(8, functionType);
  parameters.forEach((parameter, i) => {
    view.setInt32(12 + 4 * i, Math.round(parameter * 65536));
  });
  return element;
}

export function nameElement(name: string): Uint8Array {
  const element = new Uint8Array(28 + 2 * name.length);
  element.set(Buffer.from('mluc', 'latin1'));
  const view = new DataView(element.buffer);
  view.setUint32(8, 1);
  view.setUint32(12, 12);
  element.set(Buffer.from('enGB', 'latin1'), 16);
  view.setUint32(20, 2 * name.length);
  view.setUint32(24, 28);
  [...name].forEach((letter, i) => {
    view.setUint16(28 + 2 * i, letter.charCodeAt(0));
  });
  return element;
}

/** sRGB's colorants under D50, as rounded profiles hold them (the sum is D50 to a few units of 1/65536). */
export const SRGB_COLORANTS = {
  rXYZ: fixedElement('XYZ ', [0.43607, 0.22249, 0.01392]),
  gXYZ: fixedElement('XYZ ', [0.38515, 0.71687, 0.09708]),
  bXYZ: fixedElement('XYZ ', [0.14307, 0.06061, 0.7141]),
};
