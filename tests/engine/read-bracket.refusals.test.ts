import { expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { type BracketOptions, readBracket } from '../../src/engine/read-bracket.ts';
import { nodePlatform } from '../node-platform.ts';
import { toPng } from '../synthetic/encode.ts';
import { type KnownField, randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { BACKGROUND, type BracketParts, bracketRead, MARKED } from './response/bracket-of.ts';

async function refusal(parts: BracketParts = {}, options: BracketOptions = {}): Promise<string> {
  const error = await bracketRead(parts, options).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(EngineError);
  expect((error as EngineError).code).toBe('bad-bracket');
  return (error as EngineError).message;
}

/** Small pictures where it is the files' notes that are gone by. */
const small = (parts: BracketParts): BracketParts => ({ size: () => [64, 48], ...parts });

const marks = (from: number, to?: number) => MARKED.slice(from, to);

test('readBracket() refuses too few frames, and of two says how far the light is from linear', async () => {
  await expect(readBracket([], {}, nodePlatform)).rejects.toThrow(RangeError);
  expect(await refusal({ marks: marks(0, 1) })).toMatch(
    /There is one frame; three or more are needed.*Shoot/,
  );
  const two = await bracketRead({ marks: [MARKED[0], MARKED[2]] }).catch((error: EngineError) => error);
  expect(two).toMatchObject({ code: 'bad-bracket' });
  const { message, detail } = two as EngineError;
  console.log(`measured: ${message}`);
  expect(message).toMatch(
    /one stop of shutter shows as \d\.\d\d ± 0\.\d\d stop between \d+\s% and \d+\s% of white.*three or more/,
  );
  expect(detail).toMatchObject({ frames: 2, twoExposures: { stops: 2, perStop: expect.any(Number) } });
});

test('readBracket() says of two frames that are linear as decoded that they are', async () => {
  const message = await refusal({ tone: (light) => Math.min(1, light), marks: [MARKED[0], MARKED[2]] });
  expect(message).toMatch(/shows as (0\.9\d|1\.0\d) ± .*as in linear light within the ±/);
});

test('readBracket() refuses frames too near each other in exposure', async () => {
  const third = [0, -1 / 3, -2 / 3].map((stops, i) => ({
    exposureTime: [1, [8, 10, 13][i]!] as const,
    stops,
  }));
  expect(await refusal({ marks: third })).toMatch(/0\.67 stops apart.*2 stops or more are needed/);
});

test('readBracket() refuses frames of which the steps are not known, or are entered wrongly', async () => {
  expect(await refusal(small({ exif: () => ({ exposureTime: [0, 1] }) }))).toMatch(
    /None of the frames says how long it was exposed.*enter the steps/,
  );
  expect(await refusal(small({ exif: (i) => (i === 2 ? { exposureTime: [0, 1] } : {}) }))).toContain(
    'frame-2.jpg does not say',
  );
  expect(await refusal(small({}), { stops: [0, -1] })).toMatch(
    /2 exposure steps were entered for 5 frames.*Enter 5 numbers/,
  );
  expect(await refusal(small({}), { stops: [0, -1, Number.NaN, -3, -4] })).toContain(
    'ne of the exposure steps is NaN',
  );
  expect(await refusal(small({}), { stops: [0, 1, 2, 3, 4] })).toMatch(
    /stop less light than .* brighter frames with the larger number/,
  );
});

test('readBracket() refuses frames that differ in more than exposure, as their files say', async () => {
  const last = (facts: object) => small({ exif: (i: number) => (i === 4 ? facts : {}) });
  expect(await refusal({ size: (i) => (i === 3 ? [80, 48] : [64, 48]) })).toMatch(
    /frame-3\.jpg has 80 × 48 pixels and frame-0\.jpg 64 × 48/,
  );
  expect(await refusal(last({ orientation: 6 }))).toMatch(/held otherwise/);
  expect(await refusal(last({ model: 'Model B' }))).toMatch(/different cameras \(Model A, Model B\)/);
  expect(await refusal(last({ fNumber: [8, 1] }))).toMatch(/aperture changes .*f\/5\.6 to f\/8/);
  expect(await refusal(last({ iso: 200 }))).toMatch(/ISO setting changes .*ISO 100 to ISO 200/);
  expect(await refusal(last({ focalLengthMm: 70 }))).toMatch(/focal length changes .*70 mm to 85 mm/);
  expect(await refusal(small({ exif: () => ({ whiteBalance: 0 }) }))).toMatch(
    /The frames were shot with automatic white balance.*Set a fixed white balance/,
  );
});

test('readBracket() refuses flash frames whose shutter times differ and whose light does not', async () => {
  const flash = MARKED.map(({ exposureTime }) => ({ exposureTime, stops: -1 }));
  expect(await refusal({ marks: flash })).toMatch(/flash does not go by the shutter.*enter the steps/);
});

test('readBracket() refuses frames that are clipped or black all over', async () => {
  const lost = [4, 0, -2, -9].map((stops, i) => ({ ...MARKED[i]!, stops }));
  const message = await refusal({ marks: lost });
  expect(message).toMatch(/2 of the 4 frames show next to nothing.*clipped.*black.*3 frames with light/);
});

test('readBracket() refuses frames so far apart that they share no light', async () => {
  const halves: KnownField = (x) => (x < 0.5 ? [0.9, 0.9, 0.9] : [0.004, 0.004, 0.004]);
  const far = [5, -3, -4].map((stops, i) => ({ ...MARKED[2 * i]!, stops }));
  expect(await refusal({ marks: far, field: halves })).toMatch(
    /hardly a place in common that is neither clipped nor black in both.*Add a frame between them/,
  );
});

test('readBracket() takes a still scene for still, though some of its places stray', async () => {
  const { field } = randomField(101, { spreadEv: 0.844, peak: 0.95 });
  const { fromStops } = await bracketRead({ tone: toneCurve(1.5517), field });
  expect(fromStops).toBeGreaterThan(2);
});

test('readBracket() refuses frames in which something moved', async () => {
  const moving = (frame: number, field: KnownField): KnownField => {
    const at = 0.15 + 0.17 * frame;
    return (x, y) => {
      const [red, green, blue] = field(x, y);
      return Math.abs(x - at) < 0.12 && y > 0.2 ? [0.4 * red, 0.4 * green, 0.4 * blue] : [red, green, blue];
    };
  };
  expect(await refusal({ seen: moving })).toMatch(/% of the places compared .* moved/);
});

test('readBracket() refuses light that flickers from frame to frame', async () => {
  const flickering = MARKED.map(({ exposureTime, stops }, i) => ({
    exposureTime,
    stops: stops + (i === 2 ? 0.35 : 0),
  }));
  expect(await refusal({ marks: flickering })).toMatch(
    /frame-2\.jpg shows 0\.[23]\d stop more light than its exposure should give/,
  );
});

test('readBracket() refuses colours that drift although Exif is silent', async () => {
  const drifting = (frame: number, field: KnownField): KnownField => {
    const gain = 2 ** [0, 0.12, -0.1, 0.15, 0][frame]!;
    return (x, y) => {
      const [red, green, blue] = field(x, y);
      return [red * gain, green, blue / gain];
    };
  };
  expect(await refusal({ seen: drifting })).toMatch(
    /colours drift between the frames.*automatic white balance/,
  );
});

test('readBracket() refuses files that need no response', async () => {
  const raster = { widthPx: 64, heightPx: 48, curve: 'srgb', seed: 1, electronsAtFull: null } as const;
  const of = (bits: 8 | 16, gamma?: number) => {
    const bytes = toPng(renderFrame(BACKGROUND, { ...raster, bits }), gamma ? { gamma } : {});
    return readBracket(
      [
        { name: 'a.png', bytes },
        { name: 'b.png', bytes },
      ],
      {},
      nodePlatform,
    );
  };
  await expect(of(16)).rejects.toMatchObject({
    code: 'bad-bracket',
    message: expect.stringMatching(/a\.png holds 16 bits.*need none/),
  });
  await expect(of(8, 1)).rejects.toMatchObject({ message: expect.stringContaining('is coded linearly') });
});

test('readBracket() says which file can’t be read', async () => {
  const bytes = new Uint8Array(40).fill(7);
  const failed = readBracket(
    [
      { name: 'a.jpg', bytes },
      { name: 'b.jpg', bytes },
    ],
    {},
    nodePlatform,
  );
  await expect(failed).rejects.toMatchObject({ code: 'not-an-image', detail: { fileName: 'a.jpg' } });
});
