import type { SeededRandom } from '../../src/engine/numeric/seeded-random.ts';

/** A stretch of a file, end not included. */
export type Stretch = readonly [from: number, end: number];

/** What a format is made of, so that bending goes where a reader is steered. */
export interface Anatomy {
  /** Chunks, segments, boxes or entries, in the file's order. */
  stretches(file: Uint8Array): Stretch[];
  /** Puts right what a reader checks before it reads on. */
  mend?(file: Uint8Array): Uint8Array;
}

/** Lengths and counts that are most often got wrong. */
const EXTREMES = [0, 1, 2, 7, 8, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 0x10000];
const WIDE_EXTREMES = [...EXTREMES, 0x7fffffff, 0x80000000, 0xfffffffe, 0xffffffff];
/** No file grows past it by being bent: what takes long here is to be the reader, not the bending. */
const LONGEST_BYTES = 1 << 20;

type Bend = (file: Uint8Array<ArrayBuffer>, random: SeededRandom, anatomy: Anatomy) => Uint8Array;

const below = ({ uniform }: SeededRandom, count: number) => Math.floor(uniform() * count);

/** Somewhere in the first bytes of a part, where its kind and its lengths stand; else anywhere. */
function place(file: Uint8Array, random: SeededRandom, { stretches }: Anatomy): number {
  const all = stretches(file);
  if (all.length === 0 || random.uniform() < 0.3) return below(random, file.length);
  const [from, end] = all[below(random, all.length)]!;
  return from + below(random, Math.max(1, Math.min(16, end - from)));
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function run(file: Uint8Array, random: SeededRandom, longest: number): Stretch {
  const from = below(random, file.length);
  return [from, Math.min(file.length, from + 1 + below(random, longest))];
}

function part(file: Uint8Array, random: SeededRandom, { stretches }: Anatomy): Stretch {
  const all = stretches(file);
  return all.length === 0 ? run(file, random, 64) : all[below(random, all.length)]!;
}

const BENDS: readonly Bend[] = [
  function flipBit(file, random, anatomy) {
    const at = place(file, random, anatomy);
    file[at] = file[at]! ^ (1 << below(random, 8));
    return file;
  },
  function otherByte(file, random, anatomy) {
    file[place(file, random, anatomy)] = below(random, 256);
    return file;
  },
  function extremeWord(file, random, anatomy) {
    const at = place(file, random, anatomy);
    if (at + 2 <= file.length)
      new DataView(file.buffer).setUint16(
        at,
        EXTREMES[below(random, EXTREMES.length)]!,
        random.uniform() < 0.5,
      );
    return file;
  },
  function extremeLength(file, random, anatomy) {
    const at = place(file, random, anatomy);
    if (at + 4 <= file.length)
      new DataView(file.buffer).setUint32(
        at,
        WIDE_EXTREMES[below(random, WIDE_EXTREMES.length)]!,
        random.uniform() < 0.5,
      );
    return file;
  },
  function offByFew(file, random, anatomy) {
    const at = place(file, random, anatomy);
    file[at] = file[at]! + below(random, 5) - 2;
    return file;
  },
  function cutEnd(file, random) {
    return file.slice(0, below(random, file.length + 1));
  },
  function cutOut(file, random) {
    const [from, end] = run(file, random, 200);
    return joined(file.subarray(0, from), file.subarray(end));
  },
  function copyOver(file, random) {
    const [from, end] = run(file, random, 64);
    const to = below(random, Math.max(1, file.length - (end - from)));
    return file.copyWithin(to, from, end);
  },
  function repeatPart(file, random, anatomy) {
    const [from, end] = part(file, random, anatomy);
    const times = 1 + below(random, random.uniform() < 0.2 ? 200 : 3);
    const most = Math.max(1, Math.floor((LONGEST_BYTES - file.length) / Math.max(1, end - from)));
    const copies = Array.from({ length: Math.min(times, most) }, () => file.subarray(from, end));
    return joined(file.subarray(0, end), ...copies, file.subarray(end));
  },
  function leaveOutPart(file, random, anatomy) {
    const [from, end] = part(file, random, anatomy);
    return joined(file.subarray(0, from), file.subarray(end));
  },
  function movePart(file, random, anatomy) {
    const [from, end] = part(file, random, anatomy);
    const [to] = part(file, random, anatomy);
    const moved = file.slice(from, end);
    const rest = joined(file.subarray(0, from), file.subarray(end));
    const at = Math.min(to, rest.length);
    return joined(rest.subarray(0, at), moved, rest.subarray(at));
  },
  function fillRun(file, random) {
    const [from, end] = run(file, random, 100);
    return file.fill(random.uniform() < 0.5 ? 0 : 255, from, end);
  },
  function trailingBytes(file, random) {
    return joined(
      file,
      Uint8Array.from({ length: below(random, 300) }, () => below(random, 256)),
    );
  },
];

/** Bends a copy of a file once, or up to four times; mostly mended behind, so that what lies behind a check is reached. */
export function bentBytes(file: Uint8Array, random: SeededRandom, anatomy: Anatomy = NO_ANATOMY): Uint8Array {
  let bent: Uint8Array = file.slice();
  const hits = 1 + below(random, random.uniform() < 0.5 ? 1 : 4);
  for (let hit = 0; hit < hits && bent.length > 0; hit++)
    bent = BENDS[below(random, BENDS.length)]!(new Uint8Array(bent), random, anatomy);
  return anatomy.mend && random.uniform() < 0.8 ? anatomy.mend(bent.slice()) : bent;
}

export const NO_ANATOMY: Anatomy = { stretches: () => [] };
