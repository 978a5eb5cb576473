import type { Aim } from '../engine/aim.ts';
import { checkAim } from '../engine/check-aim.ts';
import { checkTolerance } from '../engine/check-tolerance.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { JobRefusal } from './job-refusal.ts';
import type { MoveAnswers } from './move-answers.ts';
import { each, fields, floats, list, oneOf, orNull } from './shapes.ts';
import { partsOf, type ShelvedParts } from './shelved-take.ts';
import { type FullTake, type HeldTake, takeNumber } from './take.ts';
import { TAKE_FACTS, takeEvidence } from './take-shape.ts';
import { type ShelvedShoot, TAKE_SCHEMA } from './take-shelf.ts';

/** A take's record: names and what they say, for whoever reads the file without this page. */
export type RecordFacts = readonly (readonly [name: string, says: string])[];

/** What goes into a job beside its takes. */
export interface JobFacts {
  readonly tolerance: Tolerance;
  readonly aim: Aim;
  /** What became of the newest take's moves so far. */
  readonly answers: MoveAnswers;
  /** The profile that was made, where one was. */
  readonly profile: Profile | null;
}

/** A job that was opened, to be put on the shelf as a shoot of its own. */
export interface OpenedJob {
  readonly shoot: Omit<ShelvedShoot, 'id'>;
  /** One after the other, as often as they are asked for. @throws {@link JobRefusal} at one that is damaged. */
  readonly takes: AsyncIterable<readonly [id: string, parts: Required<ShelvedParts>]>;
  readonly profile: Profile | null;
}

/** The first part of a job. */
interface ShootPart extends JobFacts {
  readonly kind: 'shoot';
  /** In which shape the takes are; see `TAKE_SCHEMA`. */
  readonly takeSchema: number;
  readonly beganAt: number;
  readonly lastAt: number;
  /** The ids of the takes that follow, in their order. */
  readonly order: readonly string[];
  readonly without: string;
}

/** Each further part. */
interface TakePart extends NonNullable<ShelvedParts['judged']> {
  readonly kind: 'take';
  readonly record: RecordFacts;
  readonly facts: ShelvedParts['facts'];
}

const WITHOUT = 'The picture files themselves are not in here: keep them beside it.';

/**
 * The parts of a job: what all takes share, then one take after the other, fetched where its report is not in memory.
 * @throws {@link JobRefusal} at a take that would not be opened again: better told here, where it still is.
 */
export async function* jobParts(
  takes: readonly HeldTake[],
  { tolerance, aim, answers, profile }: JobFacts,
  recordOf: (take: FullTake) => RecordFacts,
  inFull: (take: HeldTake) => Promise<FullTake>,
): AsyncGenerator<ShootPart | TakePart> {
  const shot = takes.map(({ shotAt }) => shotAt);
  yield {
    ...{ kind: 'shoot', takeSchema: TAKE_SCHEMA, tolerance, aim, answers, profile, without: WITHOUT },
    beganAt: Math.min(...shot),
    lastAt: Math.max(...shot),
    order: takes.map(({ id }) => id),
  };
  for (const take of takes) {
    const full = await inFull(take);
    const { facts, judged } = partsOf(full, true);
    const part = { kind: 'take', record: recordOf(full), facts, ...judged! } as const;
    if (!isWholeTake(part, take.id)) throw new JobRefusal('unsound-take', null, takeNumber(take));
    yield part;
  }
}

/** What {@link jobParts} handed out, its takes still to be fetched. @throws {@link JobRefusal} for anything else. */
export async function jobOfParts(parts: AsyncIterable<unknown>): Promise<OpenedJob> {
  let first: unknown;
  for await (first of parts) break;
  try {
    return openedJob(first, parts);
  } catch (error) {
    throw asRefusal(error);
  }
}

const asRefusal = (error: unknown) => (error instanceof JobRefusal ? error : new JobRefusal('damaged'));

function openedJob(first: unknown, parts: AsyncIterable<unknown>): OpenedJob {
  const { kind, takeSchema, beganAt, lastAt, order, tolerance, aim, answers, profile } = first as ShootPart;
  if (kind !== 'shoot' || !Number.isSafeInteger(takeSchema)) throw new JobRefusal('damaged');
  if (takeSchema !== TAKE_SCHEMA) throw new JobRefusal('other-takes', takeSchema);
  checkTolerance(tolerance);
  checkAim(aim);
  const isWhole =
    [beganAt, lastAt].every(Number.isFinite) &&
    ANSWERS(answers) &&
    PROFILE(profile ?? null) &&
    list((id) => typeof id === 'string' && /^take-\d{1,9}$/.test(id))(order) &&
    order.length > 0 &&
    new Set(order).size === order.length;
  if (!isWhole) throw new JobRefusal('damaged');
  const shoot = { schema: TAKE_SCHEMA, beganAt, lastAt, takes: order.length, order, tolerance, aim, answers };
  const takes = { [Symbol.asyncIterator]: () => takesIn(parts, order) };
  return { shoot, takes, profile: profile ?? null };
}

const ANSWERS = list(orNull(fields({ kind: oneOf('done', 'not-done', 'moved', 'stands') })));
/** Whoever corrects by it looks at it field by field. */
const PROFILE = orNull(fields({ schema: oneOf('evenfield.profile/1') }));

/** The takes that follow the first part, which have to be those it names. */
async function* takesIn(
  parts: AsyncIterable<unknown>,
  order: readonly string[],
): AsyncGenerator<readonly [string, Required<ShelvedParts>]> {
  let at = -1; // the first part
  for await (const part of parts) {
    if (at >= order.length) throw new JobRefusal('damaged');
    if (at >= 0) {
      const { facts, maps, evidence } = checkedTake(part, order[at]!);
      yield [facts.id, { facts, judged: { maps, evidence } }];
    }
    at++;
  }
  if (at !== order.length) throw new JobRefusal('damaged');
}

function checkedTake(part: unknown, id: string): TakePart {
  if (isWholeTake(part, id)) return part;
  throw new JobRefusal('damaged');
}

function isWholeTake(part: unknown, id: string): part is TakePart {
  try {
    const { kind, facts, maps, evidence } = part as TakePart;
    if (kind !== 'take' || !TAKE_FACTS(facts) || facts.id !== id) return false;
    const { columns, rows } = facts.figures.grid;
    const cells = columns * rows;
    return fields(each('ev uPrime vPrime', floats(cells)))(maps) && takeEvidence(cells)(evidence);
  } catch {
    return false; // something of it that is asked for is not there
  }
}
