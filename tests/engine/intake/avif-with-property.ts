import { boxesIn } from '../../../src/engine/intake/heif-boxes.ts';

/** A box by hand. */
export function box(type: string, payload: readonly number[]): Uint8Array {
  const bytes = new Uint8Array(8 + payload.length);
  new DataView(bytes.buffer).setUint32(0, bytes.length);
  bytes.set(Buffer.from(type, 'latin1'), 4);
  bytes.set(payload, 8);
  return bytes;
}

/** The payload of colr that states colours by number. */
export function nclx(primaries: number, transfer: number, matrix = 6): number[] {
  return [...Buffer.from('nclx', 'latin1'), 0, primaries, 0, transfer, 0, matrix, 0x80];
}

/**
 * An AVIF of one picture, as a library writes it, with a further property: the list of properties and that of its own
 * grow at their ends, so that only sizes and the place of the picture's data change.
 */
export function avifWithProperty(avif: Uint8Array, property: Uint8Array): Uint8Array {
  const inside = (type: string, from: number, end: number) =>
    boxesIn(avif, from, end).find((each) => each.type === type)!;
  const meta = inside('meta', 0, avif.length);
  const iprp = inside('iprp', meta.from + 4, meta.end);
  const ipco = inside('ipco', iprp.from, iprp.end);
  const ipma = inside('ipma', iprp.from, iprp.end);
  const iloc = inside('iloc', meta.from + 4, meta.end);
  const count = boxesIn(avif, ipco.from, ipco.end).length;
  const parts = [
    avif.subarray(0, ipco.end),
    property,
    avif.subarray(ipco.end, ipma.end),
    Uint8Array.of(count + 1),
    avif.subarray(ipma.end),
  ];
  const grown = new Uint8Array(Buffer.concat(parts));
  const view = new DataView(grown.buffer);
  const add = (at: number, more: number) => view.setUint32(at, view.getUint32(at) + more);
  const all = property.length + 1;
  add(meta.from - 8, all);
  add(iprp.from - 8, all);
  add(ipco.from - 8, property.length);
  add(ipma.from - 8 + property.length, 1);
  grown[ipma.from + property.length + 4 + 4 + 2]! += 1; // associations of the one picture
  const entry = iloc.from + 4 + 4; // version 0: sizes, how many items; then number, index, base, how many extents
  add(entry + 2 + 2 + 4 + 2, all);
  return grown;
}
