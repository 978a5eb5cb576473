import { type DeletedTake, withoutTake, withTakenBack } from '../takes/deleted-take.ts';
import type { MoveAnswers } from '../takes/move-answers.ts';
import { type HeldTake, isInFull } from '../takes/take.ts';
import type { OpenedShoot } from './opened-shoot.ts';
import { ShownTakes } from './shown-takes.ts';

/** A take that was deleted with what was answered of its moves. */
type Deleted = DeletedTake & { readonly answers: MoveAnswers };

/** The takes of which single ones are deleted, and the last of these taken back. */
export class DeletableTakes extends ShownTakes {
  /** What was deleted last, until another is. */
  deleted: Deleted | null = null;

  override goOn(shoot: OpenedShoot): void {
    this.deleted = null; // it was one of the shoot before
    super.goOn(shoot);
  }

  /** Deletes a take; those around it are judged anew. */
  async delete(id: string): Promise<void> {
    const { opened } = this;
    // what becomes the newest has to be there in full; while it is fetched, it may be deleted itself
    for (let heir = this.heirOf(id); heir !== null && !isInFull(heir); heir = this.heirOf(id)) {
      const isThere = await this.bring(heir);
      if (opened !== this.opened || (!isThere && this.heirOf(id)?.id === heir.id)) return;
    }
    const { takes, answers, newest } = this;
    const at = takes.findIndex((take) => take.id === id);
    if (at < 0) return;
    const isNewest = id === newest?.id;
    const deleted = { take: takes[at]!, next: takes[at + 1] ?? null, answers: isNewest ? answers : [] };
    this.deleted = deleted;
    await this.become(withoutTake(takes, id), isNewest ? [] : answers, deleted.take);
  }

  /** Takes the last deleted take back, to its place and as it was. */
  async takeBack(): Promise<void> {
    const { deleted, answers } = this;
    if (deleted === null) return;
    this.deleted = null;
    const back = withTakenBack(this.takes, deleted);
    const isNewest = back.at(-1)!.id === deleted.take.id;
    await this.become(back, isNewest ? deleted.answers : answers, deleted.take);
  }

  /** Which take becomes the newest once this one is gone; `null` where it is not the newest, or the only one. */
  private heirOf(id: string): HeldTake | null {
    return id === this.newest?.id ? (this.takes.at(-2) ?? null) : null;
  }

  private async become(takes: readonly HeldTake[], answers: MoveAnswers, deleted: HeldTake): Promise<void> {
    this.takes = takes;
    this.answers = answers;
    const { newest } = this;
    if (newest !== undefined) this.setup = (newest.movedSince?.done === null ? deleted : newest).setup;
    await this.judgeAnew();
  }
}
