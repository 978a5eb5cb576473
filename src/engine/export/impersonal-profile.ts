import { iccElements } from '../intake/read-icc-profile.ts';
import { latinBytes } from './png-chunk-bytes.ts';

/**
 * What colours depend on, and what has to be in a profile. Source: ICC.1:2010, 8 (required tags) and 9.2; cicp: ICC.1:2022.
 */
const KEPT = new Set([
  ...['desc', 'cprt', 'wtpt', 'bkpt', 'chad', 'chrm', 'lumi', 'cicp'],
  ...['rXYZ', 'gXYZ', 'bXYZ', 'rTRC', 'gTRC', 'bTRC', 'kTRC'],
  ...['A2B0', 'A2B1', 'A2B2', 'B2A0', 'B2A1', 'B2A2', 'gamt', 'rig0', 'rig2'],
  ...['D2B0', 'D2B1', 'D2B2', 'D2B3', 'B2D0', 'B2D1', 'B2D2', 'B2D3'],
]);

const TABLE_AT = 132;
/** Device's maker and model; who made the profile, and a digest of it as it was: nought stands for "not said". */
const NOT_SAID = [
  [48, 56],
  [80, 100],
] as const;

/**
 * A profile of the same colours without what tells of a single display or device: its maker, model and serial number,
 * notes of the program that made it, and whatever is not known. Its name and copyright, which it has to have, stay.
 * `null` for one that can't be taken apart.
 */
export function impersonalProfile(profile: Uint8Array): Uint8Array | null {
  const all = iccElements(profile);
  if (!all) return null;
  const kept = [...all].filter(([tag]) => KEPT.has(tag));
  const places = new Map<number, number>(); // tags may share an element
  let length = TABLE_AT + 12 * kept.length;
  for (const [, element] of kept) {
    if (places.has(element.byteOffset)) continue;
    places.set(element.byteOffset, length);
    length += (Math.max(...sizesAt(kept, element.byteOffset)) + 3) & ~3;
  }
  // elements that overlap could make far more of a profile than it holds
  if (length > profile.length + 4 * kept.length) return null;
  const bytes = new Uint8Array(length);
  bytes.set(profile.subarray(0, 128));
  for (const [from, to] of NOT_SAID) bytes.fill(0, from, to);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, length);
  view.setUint32(128, kept.length);
  kept.forEach(([tag, element], i) => {
    const place = places.get(element.byteOffset)!;
    bytes.set(latinBytes(tag), TABLE_AT + 12 * i);
    view.setUint32(TABLE_AT + 4 + 12 * i, place);
    view.setUint32(TABLE_AT + 8 + 12 * i, element.length);
    bytes.set(element, place);
  });
  return bytes;
}

const sizesAt = (kept: readonly (readonly [string, Uint8Array])[], byteOffset: number) =>
  kept.filter(([, element]) => element.byteOffset === byteOffset).map(([, { length }]) => length);
