import type { OpenedJob } from '../takes/job-of-takes.ts';
import { reportOfParts, takeOfParts } from '../takes/shelved-take.ts';
import type { FullTake } from '../takes/take.ts';
import type { ShelvedShoot, TakeShelf } from '../takes/take-shelf.ts';

/**
 * Puts takes that come one by one on the shelf, all of them or none: until the last one lies there their shoot counts as
 * deleted, also should the page die.
 */
export async function shelveAll(
  shelf: TakeShelf,
  shoot: ShelvedShoot,
  takes: OpenedJob['takes'],
): Promise<void> {
  try {
    for await (const take of takes)
      await shelf.put({ ...shoot, isDeleted: true }, { takes: new Map([take]) });
    await shelf.put(shoot, { files: [] });
  } catch (error) {
    await shelf.remove(shoot.id).catch(() => {});
    throw error;
  }
}

/** Takes that come one by one, in memory alone. */
export async function heldInFull(takes: OpenedJob['takes']): Promise<FullTake[]> {
  const held: FullTake[] = [];
  for await (const [, { facts, judged }] of takes) {
    const take = takeOfParts(facts, judged!.maps, []);
    held.push({ ...take, report: reportOfParts(take, judged!.evidence) });
  }
  return held;
}
