import { measureFrame } from '../../../src/engine/measure-frame.ts';
import type { Move } from '../../../src/engine/moves/move.ts';
import type { TakenBefore } from '../../../src/engine/moves/taken-before.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { readFrame, rejudge } from '../../../src/engine/read-frame.ts';
import type { Cast, Reading } from '../../../src/engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { setupAfter } from '../../../src/takes/setup-after.ts';
import { nodePlatform } from '../../node-platform.ts';
import { toJpeg } from '../../synthetic/encode.ts';
import { type Hands, handsFrom } from '../../synthetic/random/hands.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import { spreadEv } from '../../synthetic/random/spread-ev.ts';
import { isInShot } from '../../synthetic/random/within-room.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import type { StudioSet } from '../../synthetic/studio/studio-set.ts';
import { toneCurve } from '../../synthetic/tone-curve.ts';
import { fileOf, WELL_ELECTRONS } from '../known-frames.ts';
import { madeMoves } from './make-moves.ts';
import { stoppedByWalls } from './stopped-by-walls.ts';

const WIDTH_PX = 360;

/** Someone who wants the light as even as it gets: below what the rounds are judged by. */
const STRICT: Tolerance = {
  ...DEFAULT_TOLERANCE,
  name: 'as even as it gets',
  source: 'own, for these rounds',
  limit: 0.12,
};

/** Of ten mired between two lights a frame that both of them reach shows a part. */
const ALIKE: Tolerance = { ...STRICT, tintDeltaUv: 0.0005 };

/** A camera's picture style, as strong as they come. */
const PICTURE_STYLE = toneCurve(1.4);

/** What is known of a set, and what the camera writes. */
export interface RoundRules {
  readonly rounds: number;
  /** 16 bits of linear light behind the file's own curve, or a JPEG that a picture style was laid on. */
  readonly writes: '16 bit' | 'styled JPEG';
  /** Whether lengths were entered: of the frame, to the lights, of the room. */
  readonly isMeasured: boolean;
}

export interface Round {
  readonly moves: readonly Move[];
  /** What was foretold of the spread; `null` where only colours were moved. */
  readonly predicted: Reading['predicted'];
  /** What the moves really left. */
  readonly outcomeEv: number;
  /** Whether a wall stood where a light was sent, of a room that nobody entered; then nothing counts as foretold. */
  readonly isStopped: boolean;
  /** Whether a light then stands in the picture. */
  readonly isInPicture: boolean;
}

/** What came of a studio whose photographer does what the tool says, nearly. */
export interface PlayedRounds {
  readonly studio: RandomStudio;
  readonly startEv: number;
  readonly rounds: readonly Round[];
  /** The set as it was left. */
  readonly left: StudioSet;
  /** What the gels that were hung really shift, which is not what is printed on them. */
  readonly gels: readonly { readonly lamp: number; readonly mired: number }[];
  /** What the first frame and one of the set as it was left showed of its colour. */
  readonly casts: readonly [before: Cast, after: Cast];
  /** Processor time of judging and planning a frame whose set is fitted already. */
  readonly planMs: readonly number[];
}

/** Shoots, reads, moves, and shoots again, until the tool leaves the light alone. All of it follows from the seed. */
export async function playRounds(studio: RandomStudio, rules: RoundRules): Promise<PlayedRounds> {
  const drawn = handsFrom(seededRandom(studio.seed ^ 0x4a4d));
  let shiftedMired = 0;
  const hands: Hands = {
    ...drawn,
    gelMired: (nominalMired) => {
      shiftedMired = drawn.gelMired(nominalMired);
      return shiftedMired;
    },
  };
  const gels: { lamp: number; mired: number }[] = [];
  let { set } = studio;
  let setup = rules.isMeasured ? studio.setup : { ...UNKNOWN_SETUP, ...unmeasured(studio.setup) };
  const before: TakenBefore[] = [];
  const rounds: Round[] = [];
  const planMs: number[] = [];
  const casts: Cast[] = [];
  for (let take = 0; take <= rules.rounds; take++) {
    const source = { name: `take-${take}`, bytes: await shot(studio, set, take, rules) };
    if (take === rules.rounds) {
      casts.push((await measureFrame([source], {}, nodePlatform)).measurement.cast);
      break;
    }
    const tolerance = setup.arrangement === 'two-lamps' ? ALIKE : STRICT;
    const options = { setup, tolerance, earlierTakes: [...before] };
    const report = await readFrame([source], options, nodePlatform);
    casts.push(report.reading.cast);
    const start = process.cpuUsage();
    rejudge(report, options);
    const { user, system } = process.cpuUsage(start);
    planMs.push((user + system) / 1000);
    const { moves, predicted } = report.reading;
    if (!moves.some(isAtTheSet)) break;
    // what was advised but not done would break the chain of takes that are fitted together
    const done: Move[] = [];
    let moved = set;
    for (const move of moves) {
      const after = madeMoves(moved, [move], hands);
      if (after !== moved) done.push(move);
      if (move.kind === 'gel') gels.push({ lamp: move.lamp, mired: shiftedMired });
      moved = after;
    }
    const stopped = stoppedByWalls(set, moved, done, studio.setup.room);
    set = stopped.set;
    const isStopped = stopped.shortMm > STOPPED_MM;
    const isInPicture = set.lamps.some((lamp) => isInShot(set, lamp));
    rounds.push({
      moves,
      predicted: isStopped ? null : predicted,
      outcomeEv: spreadEv(set),
      isStopped,
      isInPicture,
    });
    const found = report.set?.found ?? [];
    before.push({ samples: report.samples, setup, found, done: stopped.done, advised: moves });
    setup = setupAfter(setup, stopped.done);
  }
  const startEv = spreadEv(studio.set);
  return { studio, startEv, rounds, left: set, gels, casts: [casts[0]!, casts.at(-1)!], planMs };
}

/** Nearer to where a light was sent than this is as good as there. */
const STOPPED_MM = 30;

/** Whether anything is to be done but to frame and expose otherwise. */
const isAtTheSet = ({ kind }: Move) => kind !== 'frame-tighter' && kind !== 'expose';

async function shot(
  { seed, aspect }: RandomStudio,
  set: StudioSet,
  take: number,
  { writes }: RoundRules,
): Promise<Uint8Array> {
  const heightPx = Math.round(WIDTH_PX * aspect);
  const noise = 100 * seed + take;
  const { field } = studioField(set);
  if (writes === '16 bit') return await fileOf(field, writes, WIDTH_PX, heightPx, noise);
  const frame = renderFrame(field, {
    ...{ widthPx: WIDTH_PX, heightPx, bits: 8, curve: 'srgb', seed: noise },
    ...{ electronsAtFull: WELL_ELECTRONS, tone: PICTURE_STYLE },
  });
  return await toJpeg(frame, { quality: 92, chroma: '4:2:0' });
}

/** Nothing but how the lights are arranged. */
function unmeasured({ arrangement, light }: Setup): Partial<Setup> {
  return { arrangement, light };
}
