import type { Aim } from '../../src/engine/aim.ts';
import { checkAim } from '../../src/engine/check-aim.ts';
import { checkSetup } from '../../src/engine/check-setup.ts';
import { checkTolerance } from '../../src/engine/check-tolerance.ts';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { linearise } from '../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import { readFrame, rejudge } from '../../src/engine/read-frame.ts';
import type { CameraResponse } from '../../src/engine/response/camera-response.ts';
import { srgbResponse } from '../../src/engine/response/srgb-response.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import type { Tolerance } from '../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { checkMoves } from '../../src/takes/check-moves.ts';
import { setupAfter } from '../../src/takes/setup-after.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';
import { wholeFile } from '../engine/export/read-back.ts';
import { readBytes } from '../engine/known-frames.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { bentValue } from './bend-value.ts';
import { endingOf, wholeReport } from './ending.ts';
import type { InputKind } from './run-inputs.ts';
import { smallFrame } from './seed-files.ts';

const png = toPng(smallFrame(8, 1));
const jpeg = await toJpeg(smallFrame(8, 4), { quality: 90, chroma: '4:2:0' });
const report = await readBytes(toPng(smallFrame(16, 3, 64, 48)));
const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };

const asText = (value: unknown) => {
  try {
    return Buffer.from(JSON.stringify(value) ?? String(value));
  } catch (error) {
    return Buffer.from(String(error));
  }
};

const made = makeProfile(await readBytes(png));
const PROFILES = [profileOf(latticeOf(3, 3, (x, y) => [-0.5 * x, -0.3 * y, -0.4])), made];

const profiles: InputKind<unknown> = {
  name: 'correction profiles',
  make: (random, seed) => bentValue(PROFILES[seed % 2], random),
  end: (profile) =>
    endingOf(
      correctFrame(
        { name: 'a.png', bytes: png },
        profile as (typeof PROFILES)[0],
        { format: 'png', bits: 8 },
        nodePlatform,
      ).then(
        async (corrected) => linearise(await decodeImage(wholeFile(corrected.parts), nodePlatform)).frame,
      ),
      ({ samples, widthPx, heightPx, channels }) => {
        if (samples.length !== widthPx * heightPx * channels) throw new Error('samples are missing');
      },
    ),
  bytes: asText,
};

const responses: InputKind<unknown> = {
  name: 'responses',
  make: (random) => bentValue(srgbResponse(), random),
  end: (response) =>
    endingOf(
      readFrame(
        [{ name: 'a.jpg', bytes: jpeg }],
        { ...judgedBy, response: response as CameraResponse },
        nodePlatform,
      ),
      wholeReport,
    ),
  bytes: asText,
};

interface Settings {
  readonly setup: Setup;
  readonly tolerance: Tolerance;
  readonly aim: Aim;
  readonly moves: readonly Move[];
}

const KNOWN: Setup = {
  arrangement: 'two-lamps',
  light: 'flash',
  frameWidthMm: 1200,
  lampDistanceMm: [900, null],
  lampWidthMm: 300,
  cameraDistanceMm: 2500,
  room: { leftMm: 1000, rightMm: 1000, upMm: 500, downMm: 0, reachMm: 2000 },
};
const NOTHING = { bringsEv: null, toward: null, caution: null };
const MOVES: readonly Move[] = [
  { ...NOTHING, kind: 'lamp-distance', lamp: 0, ratio: 1.2 },
  {
    ...NOTHING,
    kind: 'slide-lamp',
    lamp: 1,
    rightMm: 100,
    downMm: 0,
    rightFrameWidths: 0.1,
    downFrameWidths: 0,
  },
  { ...NOTHING, kind: 'balance-lamps', lamp: 1, stops: 0.3 },
];
const AIMS: readonly Aim[] = [
  { kind: 'even' },
  { kind: 'clean-white', whiteCode: 250, mostOverEv: 0.3 },
  { kind: 'ramp', angleDeg: 90, ev: 1 },
];

/** What a program gives the element: refused at once as it says, or gone by. */
const settings: InputKind<Settings> = {
  name: 'set-ups, tolerances, aims and moves',
  make(random, seed) {
    const plain = {
      setup: seed % 2 ? KNOWN : UNKNOWN_SETUP,
      tolerance: DEFAULT_TOLERANCE,
      aim: AIMS[seed % 3]!,
      moves: MOVES,
    };
    const names = ['setup', 'tolerance', 'aim', 'moves'] as const;
    const name = names[Math.floor(random.uniform() * names.length)]!;
    return { ...plain, [name]: bentValue(plain[name], random) };
  },
  async end({ setup, tolerance, aim, moves }) {
    try {
      checkSetup(setup);
      checkTolerance(tolerance);
      checkAim(aim);
      checkMoves(moves, setup.arrangement);
    } catch (error) {
      if (error instanceof RangeError || error instanceof TypeError) return refusalOf(error);
      throw error;
    }
    const after = setupAfter(setup, moves);
    return endingOf(
      Promise.resolve().then(() => rejudge(report, { setup: after, tolerance, aim })),
      wholeReport,
    );
  },
  bytes: asText,
};

/** A refusal in words of its own; what the language itself says where something is not there is none. */
function refusalOf(error: Error): string {
  if (/cannot read|is not a function|not iterable|undefined \(/i.test(error.message)) throw error;
  return 'refused';
}

export const valueKinds = [profiles, responses, settings] as unknown as InputKind<never>[];
