import { type AcRuns, acRuns, ENDS_BLOCK, PLACES } from './ac-runs.ts';
import { type HuffmanCodes, readHuffmanTables } from './huffman-codes.ts';
import { readDcQuantisers } from './jpeg-dc-steps.ts';
import { ScanBits } from './scan-bits.ts';

/** Means of one component's 8 × 8 blocks, in codes from 0 to 255 with the fraction that the file holds. */
export interface BlockMeans {
  /** Blocks in a row and in a column, those that pad the picture included. */
  readonly across: number;
  readonly down: number;
  /** Side of a block in pixels of the picture: 8, or 16 where the component is coded at half the resolution. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly means: Float32Array;
}

interface Component extends BlockMeans {
  readonly id: number;
  readonly horizontal: number;
  readonly vertical: number;
  readonly quantiserTable: number;
  /** Blocks that the picture itself needs: what a scan of this component alone holds. */
  readonly ownAcross: number;
  readonly ownDown: number;
  dcCodes: HuffmanCodes | undefined;
  acCodes: HuffmanCodes | undefined;
  acRuns: AcRuns | undefined;
  last: number;
}

/**
 * A component with no more blocks in a scan is read code by code: making the table of runs takes as long as it saves in
 * about so many, and a hostile file may bring new codes for each of thousands of scans.
 */
const MOST_BLOCKS_BY_CODE = 4000;

/**
 * Reads the DC coefficients of a JPEG: luma's, then chroma's. The platform's decoder hands out whole codes; the file
 * itself holds the mean of each block to an eighth of its quantiser's step, and in smooth light nothing else.
 * Baseline and progressive Huffman coding; `null` for any other kind and for damaged scans (a faulty code), where the
 * platform's pixels have to do. Source: ITU-T T.81 (1992), annexes A.2, F.2.2 and G.1.2.1.
 */
export function readBlockMeans(bytes: Uint8Array): readonly BlockMeans[] | null {
  const quantisers: number[] = [];
  const dc: HuffmanCodes[] = [];
  const ac: HuffmanCodes[] = [];
  let components: Component[] = [];
  let isProgressive = false;
  let restartInterval = 0;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) {
      at++;
      continue;
    }
    const marker = bytes[at + 1]!;
    if (marker === 0xff || marker === 0 || marker === 1 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    if (marker === 0xd9) break;
    const length = (bytes[at + 2]! << 8) | bytes[at + 3]!;
    const data = bytes.subarray(at + 4, at + 2 + length);
    at += 2 + length;
    if (marker === 0xc0 || marker === 0xc1 || marker === 0xc2) {
      isProgressive = marker === 0xc2;
      components = componentsOf(data);
      if (data[0] !== 8 || components.length === 0) return null;
    } else if (marker === 0xc4) readHuffmanTables(data, dc, ac);
    else if (marker >= 0xc3 && marker <= 0xcf && marker !== 0xc8 && marker !== 0xcc) return null;
    else if (marker === 0xdb) readDcQuantisers(data, quantisers);
    else if (marker === 0xee && data[0] === 0x41 && data[11] === 0)
      return null; // Adobe's RGB, not luma and chroma
    else if (marker === 0xdd) restartInterval = (data[0]! << 8) | data[1]!;
    else if (marker === 0xda) {
      const isRead = readScan(bytes, at, data, components, dc, ac, isProgressive, restartInterval);
      if (!isRead) return null;
    }
  }
  for (const component of components) {
    const step = (quantisers[component.quantiserTable] ?? 1) / 8;
    const { means } = component;
    for (let i = 0; i < means.length; i++) means[i] = means[i]! * step + 128;
  }
  const isRgb = components.length === 3 && components.every(({ id }, i) => id === 'RGB'.charCodeAt(i));
  return (components.length === 1 || components.length === 3) && !isRgb ? components : null;
}

function componentsOf(data: Uint8Array): Component[] {
  const heightPx = (data[1]! << 8) | data[2]!;
  const widthPx = (data[3]! << 8) | data[4]!;
  const specs = Array.from({ length: data[5]! }, (_, i) => data.subarray(6 + 3 * i, 9 + 3 * i));
  const most = (shift: number) => Math.max(...specs.map((spec) => (spec[1]! >> shift) & 15));
  const [mostHorizontal, mostVertical] = [most(4), most(0)];
  const unitsAcross = Math.ceil(widthPx / (8 * mostHorizontal));
  const unitsDown = Math.ceil(heightPx / (8 * mostVertical));
  return specs.map((spec) => {
    const horizontal = spec[1]! >> 4;
    const vertical = spec[1]! & 15;
    const across = unitsAcross * horizontal;
    const down = unitsDown * vertical;
    return {
      id: spec[0]!,
      horizontal,
      vertical,
      quantiserTable: spec[2]!,
      across,
      down,
      ownAcross: Math.ceil(Math.ceil((widthPx * horizontal) / mostHorizontal) / 8),
      ownDown: Math.ceil(Math.ceil((heightPx * vertical) / mostVertical) / 8),
      widthPx: (8 * mostHorizontal) / horizontal,
      heightPx: (8 * mostVertical) / vertical,
      means: new Float32Array(across * down),
      dcCodes: undefined,
      acCodes: undefined,
      acRuns: undefined,
      last: 0,
    };
  });
}

/** Reads one scan's DC part into its components' `means` (still in quantised units); scans of AC alone are passed over. */
function readScan(
  bytes: Uint8Array,
  from: number,
  header: Uint8Array,
  components: readonly Component[],
  dc: readonly HuffmanCodes[],
  ac: readonly HuffmanCodes[],
  isProgressive: boolean,
  restartInterval: number,
): boolean {
  const count = header[0]!;
  const [first, approximation] = [header[1 + 2 * count]!, header[3 + 2 * count]!];
  if (isProgressive && first > 0) return true;
  const scan: Component[] = [];
  for (let i = 0; i < count; i++) {
    const component = components.find(({ id }) => id === header[1 + 2 * i]);
    if (!component) return false;
    component.dcCodes = dc[header[2 + 2 * i]! >> 4];
    component.acCodes = ac[header[2 + 2 * i]! & 15];
    component.acRuns = undefined;
    component.last = 0;
    scan.push(component);
  }
  const shift = isProgressive ? approximation & 15 : 0;
  const isRefinement = isProgressive && approximation >> 4 > 0;
  const bits = new ScanBits(bytes, from);
  const alone = scan.length === 1 ? scan[0]! : null;
  const unitsAcross = alone ? alone.ownAcross : scan[0]!.across / scan[0]!.horizontal;
  const units = unitsAcross * (alone ? alone.ownDown : scan[0]!.down / scan[0]!.vertical);
  if (!isProgressive) {
    for (const component of scan) {
      const blocks = alone ? units : units * component.horizontal * component.vertical;
      if (component.acCodes && blocks > MOST_BLOCKS_BY_CODE) component.acRuns = acRuns(component.acCodes);
    }
  }
  for (let unit = 0; unit < units; unit++) {
    if (restartInterval > 0 && unit > 0 && unit % restartInterval === 0) {
      if (!bits.restart()) return false;
      for (const component of scan) component.last = 0;
    }
    const column = unit % unitsAcross;
    const row = (unit - column) / unitsAcross;
    for (const component of scan) {
      const [h, v] = alone ? [1, 1] : [component.horizontal, component.vertical];
      for (let y = 0; y < v; y++) {
        for (let x = 0; x < h; x++) {
          const block = (row * v + y) * component.across + column * h + x;
          if (isRefinement) component.means[block]! += bits.take(1) << shift;
          else if (!readBlock(bits, component, block, shift, !isProgressive)) return false;
        }
      }
    }
  }
  return true;
}

/** Reads a block's DC difference and, in a baseline scan, passes over its AC coefficients. */
function readBlock(
  bits: ScanBits,
  component: Component,
  block: number,
  shift: number,
  hasAc: boolean,
): boolean {
  const { dcCodes, acCodes, acRuns } = component;
  const entry = dcCodes?.[bits.peek16()];
  if (!entry) return false;
  bits.skip(entry >> 8);
  component.last += bits.takeSigned(entry & 15);
  component.means[block] = component.last * 2 ** shift;
  if (!hasAc) return true;
  if (!acCodes) return false;
  for (let k = 1; k < 64; k++) {
    const ahead = bits.peek16();
    const run = acRuns ? acRuns[ahead]! : 0;
    const places = run & PLACES;
    if (places > 0 && k + places <= 64) {
      bits.skip(run >> 8);
      if (run & ENDS_BLOCK) break;
      k += places - 1;
      continue;
    }
    const code = acCodes[ahead]!;
    if (code === 0) return false;
    const length = code >> 8;
    const size = code & 15;
    const zeros = (code >> 4) & 15;
    if (length + size <= 16) bits.skip(length + size);
    else {
      bits.skip(length);
      bits.peek16(); // 16 bits were at hand, and more are asked for
      bits.skip(size);
    }
    if (size === 0 && zeros !== 15) break; // end of block
    k += zeros;
  }
  return true;
}
