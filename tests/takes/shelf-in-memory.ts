import type { ReadingMaps } from '../../src/takes/reading-maps.ts';
import { type TakeEvidence, type TakeFacts, takeOfParts } from '../../src/takes/shelved-take.ts';
import type { HeldTake } from '../../src/takes/take.ts';
import type { ShelfChange, ShelvedShoot, TakeShelf } from '../../src/takes/take-shelf.ts';

interface OnShelf {
  shoot: ShelvedShoot;
  readonly facts: Map<string, TakeFacts>;
  readonly judged: Map<string, { maps: ReadingMaps; evidence: TakeEvidence }>;
  files: HeldTake['frames'];
}

/** A shelf that remembers what was put on it, and can be full or gone. */
export class ShelfInMemory implements TakeShelf {
  readonly held = new Map<string, OnShelf>();
  /** Of each write the ids of takes, with a star those whose report was written, and of what went away with a minus. */
  readonly writes: string[][] = [];
  trouble: 'QuotaExceededError' | 'InvalidStateError' | null = null;

  async put(shoot: ShelvedShoot, { takes, files, gone = [] }: ShelfChange): Promise<void> {
    await Promise.resolve();
    if (this.trouble) throw new DOMException('As the browser words it.', this.trouble);
    const before = this.held.get(shoot.id) ?? { shoot, facts: new Map(), judged: new Map(), files: [] };
    const written = [...(takes ?? [])].map(([id, { judged }]) => (judged === null ? id : `${id}*`));
    this.writes.push([...written, ...gone.map((id) => `-${id}`)]);
    for (const [id, { facts, judged }] of takes ?? []) {
      before.facts.set(id, facts);
      if (judged !== null) before.judged.set(id, judged);
    }
    for (const id of gone) for (const part of [before.facts, before.judged]) part.delete(id);
    this.held.set(shoot.id, { ...before, shoot, files: files ?? before.files });
  }

  async shoots(): Promise<ShelvedShoot[]> {
    return [...this.held.values()].map(({ shoot }) => shoot).sort((a, b) => b.lastAt - a.lastAt);
  }

  async shoot(id: string): Promise<ShelvedShoot | undefined> {
    return this.held.get(id)?.shoot;
  }

  async takesOf({ id, order }: ShelvedShoot): Promise<HeldTake[]> {
    const { facts, judged, files } = this.held.get(id)!;
    return order.map((take) =>
      takeOfParts(facts.get(take)!, judged.get(take)!.maps, take === order.at(-1) ? files : []),
    );
  }

  async evidenceOf(shootId: string, takeId: string): Promise<TakeEvidence> {
    return this.held.get(shootId)!.judged.get(takeId)!.evidence;
  }

  async tidy(id: string): Promise<void> {
    const { shoot, facts, judged } = this.held.get(id)!;
    const gone = [...facts.keys()].filter((take) => !shoot.order.includes(take));
    for (const take of gone) for (const part of [facts, judged]) part.delete(take);
    if (gone.length > 0) this.writes.push(gone.map((take) => `-${take}`));
  }

  async remove(id: string): Promise<void> {
    this.held.delete(id);
  }
}
