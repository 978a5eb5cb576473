import { backgroundLevel } from '../../src/engine/exposure/background-level.ts';
import { checkLight } from '../../src/engine/frame/check-light.ts';
import { NO_DOUBT } from '../../src/engine/frame/light-doubt.ts';
import type { LinearFrame } from '../../src/engine/frame/linear-frame.ts';
import { linearise } from '../../src/engine/frame/linearise.ts';
import { cellsFromFrame } from '../../src/engine/grid/cells-from-frame.ts';
import { fineStructure } from '../../src/engine/grid/fine-structure.ts';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import { measureOpened } from '../../src/engine/measure-frame.ts';
import type { SeededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { rejudge, samplesOf } from '../../src/engine/read-frame.ts';
import { findRegion } from '../../src/engine/region/find-region.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { tiffFile } from '../engine/intake/tiff-bytes.ts';
import { readBytes } from '../engine/known-frames.ts';
import { nodePlatform } from '../node-platform.ts';
import { toPng } from '../synthetic/encode.ts';
import { endingOf, wholeReport } from './ending.ts';
import type { InputKind } from './run-inputs.ts';
import { smallFrame } from './seed-files.ts';

const [WIDTH, HEIGHT] = [48, 32];
const LAST = 65535;

/** Codes of a pixel in patterns that no photograph has, by column and row. */
function pattern({ uniform }: SeededRandom): (x: number, y: number, channel: number) => number {
  const [a, b] = [Math.floor(uniform() * (LAST + 1)), Math.floor(uniform() * (LAST + 1))];
  const [atX, atY] = [Math.floor(uniform() * WIDTH), Math.floor(uniform() * HEIGHT)];
  const isIn = (x: number, y: number) => x >> 3 === atX >> 3 && y >> 3 === atY >> 3;
  const patterns: readonly ((x: number, y: number, channel: number) => number)[] = [
    () => a,
    () => 0,
    () => LAST,
    () => 1,
    (x) => (x === atX ? a : 0),
    (_x, y) => (y === atY ? a : b),
    (x, y) => (isIn(x, y) ? a : 0),
    (x, y) => (isIn(x, y) ? 0 : a),
    (x, y) => (isIn(x, y) ? LAST : b),
    (x) => 2 ** ((16 * x) / WIDTH) - 1,
    (x, y) => (((x >> 3) + (y >> 3)) % 2 ? a : b),
    (x, y) => ((x + y) % 2 ? LAST : 0),
    (x, _y, channel) => (channel === atX % 3 ? a : 0) + x,
    (_x, _y, channel) => [a, b, 0][(channel + atY) % 3]!,
    () => a * uniform(),
    (x, y) => (x * HEIGHT + y) * 40,
  ];
  return patterns[Math.floor(uniform() * patterns.length)]!;
}

/** One row or column of cells, two, or a few. */
function size({ uniform }: SeededRandom): readonly [number, number] {
  const sizes = [
    [WIDTH, HEIGHT],
    [WIDTH, HEIGHT],
    [16, 16],
    [17, 200],
    [200, 17],
    [8, 300],
    [300, 9],
    [24, 24],
  ] as const;
  return sizes[Math.floor(uniform() * sizes.length)]!;
}

function samplesOfPattern(random: SeededRandom, widthPx: number, heightPx: number): Uint16Array {
  const code = pattern(random);
  const samples = new Uint16Array(widthPx * heightPx * 3);
  for (let at = 0; at < samples.length; at++) {
    const pixel = Math.floor(at / 3);
    samples[at] = code(pixel % widthPx, Math.floor(pixel / widthPx), at % 3);
  }
  return samples;
}

/** Whole files of patterns, of 8 and 16 bits. */
const pictures: InputKind<Uint8Array> = {
  name: 'odd pictures',
  make(random, seed) {
    const [widthPx, heightPx] = size(random);
    const samples = samplesOfPattern(random, widthPx, heightPx);
    return seed % 2
      ? toPng({ widthPx, heightPx, bits: 16, samples }, seed % 3 ? {} : { gamma: 1 })
      : toPng({ widthPx, heightPx, bits: 8, samples: Uint8Array.from(samples, (code) => code >> 8) });
  },
  end: (bytes) => endingOf(readBytes(bytes), wholeReport),
  bytes: (bytes) => bytes,
};

const ODD_LIGHT = [
  0,
  -0,
  1,
  -1,
  5e-324,
  1e-40,
  1e-7,
  65504,
  3.4e38,
  Number.NaN,
  Infinity,
  -Infinity,
  -1e30,
  2,
];

/** Floating-point files hold light that no code does. */
const floats: InputKind<Uint8Array> = {
  name: 'odd light in floating point',
  make(random, seed) {
    const plain = Float64Array.from(smallFrame(16, 1 + (seed % 7)).samples, (code) => code / LAST);
    const odd = () => ODD_LIGHT[Math.floor(random.uniform() * ODD_LIGHT.length)]!;
    const [first, second] = [odd(), odd()];
    const scale = seed % 3 ? 1 : 2 ** (80 * (random.uniform() - 0.5));
    const every = 1 + Math.floor(random.uniform() ** 3 * 4000);
    const light = plain.map((value, i) => (i % every === 0 ? (i % 2 ? first : second) : value * scale));
    return tiffFile({
      widthPx: WIDTH,
      heightPx: HEIGHT,
      channels: 3,
      depth: 32,
      isFloat: true,
      samples: light,
    });
  },
  end: (bytes) => endingOf(readBytes(bytes), wholeReport),
  bytes: (bytes) => bytes,
};

const plainFrame = linearise(await decodeImage(toPng(smallFrame(16, 2)), nodePlatform)).frame;

interface OddFrame {
  readonly frame: LinearFrame;
  readonly says: string;
}

/** Linear frames behind intake: tables from code to light that hold what no file's own could. */
const frames: InputKind<OddFrame> = {
  name: 'linear frames',
  make(random) {
    const odd = () => ODD_LIGHT[Math.floor(random.uniform() * ODD_LIGHT.length)]!;
    const [widthPx, heightPx] = [WIDTH, HEIGHT];
    const samples = random.uniform() < 0.5 ? samplesOfPattern(random, widthPx, heightPx) : plainFrame.samples;
    const scale = 2 ** (200 * (random.uniform() - 0.5) * (random.uniform() < 0.5 ? 1 : 0));
    const table = plainFrame.lightAtCode.green.map((light) => light * scale);
    for (let hit = Math.floor(random.uniform() * 5); hit > 0; hit--) {
      const from = Math.floor(random.uniform() * table.length);
      table.fill(odd(), from, from + 1 + Math.floor(random.uniform() ** 4 * table.length));
    }
    const same = random.uniform() < 0.5;
    const other = plainFrame.lightAtCode.red;
    const frame: LinearFrame = {
      ...plainFrame,
      samples,
      lightAtCode: { red: same ? table : other, green: table, blue: same ? table : other },
    };
    return { frame, says: JSON.stringify({ scale, same, samples: [...samples.slice(0, 300)] }) };
  },
  end: ({ frame }) => endingOf(readLinear(frame), wholeReport),
  bytes: ({ says }) => Buffer.from(says),
};

/** What is made of a file once its codes have their light, by the steps that the reading of a file goes through. */
async function readLinear(frame: LinearFrame) {
  checkLight(frame);
  const whole = cellsFromFrame(frame);
  const lit = findRegion(whole, frame);
  const grid = lit.found ? cellsFromFrame(frame, lit.region) : whole;
  const facts = {
    ...{ name: 'odd.png', sha256: null, widthPx: frame.widthPx, heightPx: frame.heightPx, orientation: 1 },
    ...{ bitsPerSample: 16, light: frame.light, lightSays: frame.lightSays, colourProfile: 'sRGB' },
    ...{ exposure: null, averagedFrames: 1 },
  };
  const measured = measureOpened(
    [
      {
        ...{ facts, grid: { ...grid, fine: fineStructure(frame, grid.region) }, space: frame.space },
        ...{ regionSays: '', wholeLight: null, doubt: NO_DOUBT, readBy: { camera: null, response: null } },
      },
    ],
    {},
  );
  const { measurement, ...evidence } = measured;
  const options = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };
  // as if it had been fitted with something else before, so that it is judged from the ground up
  const before = {
    ...evidence,
    reading: measurement,
    ...{ level: backgroundLevel(evidence.grid, evidence.light), aimed: null, samples: samplesOf(measured) },
    ...{
      set: {},
      isSetTrusted: false,
      fittedWith: { setup: { ...UNKNOWN_SETUP, lampWidthMm: 1 }, secondFrames: [], earlierTakes: [] },
    },
  } as unknown as Parameters<typeof rejudge>[0];
  return rejudge(before, options);
}

export const frameKinds = [pictures, floats, frames] as unknown as InputKind<never>[];
