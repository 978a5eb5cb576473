import { type DeletedTake, withoutTake, withTakenBack } from '../takes/deleted-take.ts';
import type { MoveAnswers } from '../takes/move-answers.ts';
import type { HeldTake } from '../takes/take.ts';
import { ShownTakes } from './shown-takes.ts';

/** A take that was deleted with what was answered of its moves. */
type Deleted = DeletedTake & { readonly answers: MoveAnswers };

/** The takes of which single ones are deleted, and the last of these taken back. */
export class DeletableTakes extends ShownTakes {
  /** What was deleted last, until another is. */
  deleted: Deleted | null = null;

  /** Deletes a take; those around it are judged anew. */
  async delete(id: string): Promise<void> {
    const before = this.takes[this.takes.findIndex((take) => take.id === id) - 1];
    // it may become the newest, which has to be there in full
    if (before !== undefined && id === this.newest?.id && !(await this.bring(before))) return;
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

  private async become(takes: readonly HeldTake[], answers: MoveAnswers, deleted: HeldTake): Promise<void> {
    this.takes = takes;
    this.answers = answers;
    const { newest } = this;
    if (newest !== undefined) this.setup = (newest.movedSince?.done === null ? deleted : newest).setup;
    await this.judgeAnew();
  }
}
