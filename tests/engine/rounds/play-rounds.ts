import type { Move } from '../../../src/engine/moves/move.ts';
import type { TakenBefore } from '../../../src/engine/moves/taken-before.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { readFrame, rejudge } from '../../../src/engine/read-frame.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { setupAfter } from '../../../src/takes/setup-after.ts';
import { nodePlatform } from '../../node-platform.ts';
import { handsFrom } from '../../synthetic/random/hands.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import { spreadEv } from '../../synthetic/random/spread-ev.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { type Coding, fileOf } from '../known-frames.ts';
import { madeMoves } from './make-moves.ts';

const WIDTH_PX = 360;

/** Someone who wants the light as even as it gets: below what the rounds are judged by. */
const STRICT: Tolerance = {
  ...DEFAULT_TOLERANCE,
  name: 'as even as it gets',
  source: 'own, for these rounds',
  limit: 0.12,
};

/** What is known of a set, and what the camera writes. */
export interface RoundRules {
  readonly rounds: number;
  readonly coding: Coding;
  /** Whether anything was entered of lengths and distances beside the room. */
  readonly isMeasured: boolean;
}

export interface Round {
  readonly moves: readonly Move[];
  readonly predictedEv: number;
  readonly plusMinusEv: number;
  /** What the moves really left. */
  readonly outcomeEv: number;
}

/** What came of a studio whose photographer does what the tool says, nearly. */
export interface PlayedRounds {
  readonly seed: number;
  readonly startEv: number;
  readonly rounds: readonly Round[];
  /** Processor time of judging and planning a frame whose set is fitted already. */
  readonly planMs: readonly number[];
}

/** Shoots, reads, moves, and shoots again, until the tool leaves the light alone. All of it follows from the seed. */
export async function playRounds(studio: RandomStudio, rules: RoundRules): Promise<PlayedRounds> {
  const hands = handsFrom(seededRandom(studio.seed ^ 0x4a4d));
  let { set } = studio;
  let setup: Setup = rules.isMeasured ? studio.setup : { ...UNKNOWN_SETUP, ...unmeasured(studio.setup) };
  const before: TakenBefore[] = [];
  const played: Round[] = [];
  const planMs: number[] = [];
  for (let round = 0; round < rules.rounds; round++) {
    const heightPx = Math.round(WIDTH_PX * studio.aspect);
    const noise = 100 * studio.seed + round;
    const bytes = await fileOf(studioField(set).field, rules.coding, WIDTH_PX, heightPx, noise);
    const options = { setup, tolerance: STRICT, earlierTakes: [...before] };
    const report = await readFrame([{ name: `take-${round}`, bytes }], options, nodePlatform);
    const start = process.cpuUsage();
    rejudge(report, options);
    const { user, system } = process.cpuUsage(start);
    planMs.push((user + system) / 1000);
    const { moves, predicted } = report.reading;
    if (predicted === null) break;
    set = madeMoves(set, moves, hands);
    const outcomeEv = spreadEv(set);
    played.push({ moves, predictedEv: predicted.spreadEv, plusMinusEv: predicted.plusMinusEv, outcomeEv });
    before.push({ samples: report.samples, setup, found: report.set?.found ?? [], done: moves });
    setup = setupAfter(setup, moves);
  }
  return { seed: studio.seed, startEv: spreadEv(studio.set), rounds: played, planMs };
}

/** Nothing but where the lights are and how large the room is. */
function unmeasured({ arrangement, light }: Setup): Partial<Setup> {
  return { arrangement, light };
}
