import type { HeldTake } from '../../src/takes/take.ts';
import type { ShelvedShoot, TakeShelf } from '../../src/takes/take-shelf.ts';

/** A shelf that remembers what was put on it, and can be full or gone. */
export class ShelfInMemory implements TakeShelf {
  readonly held = new Map<string, { shoot: ShelvedShoot; takes: Map<number, HeldTake> }>();
  /** The places that each write held. */
  readonly writes: number[][] = [];
  trouble: 'QuotaExceededError' | 'InvalidStateError' | null = null;

  async put(shoot: ShelvedShoot, takes: ReadonlyMap<number, HeldTake>): Promise<void> {
    await Promise.resolve();
    if (this.trouble) throw new DOMException('As the browser words it.', this.trouble);
    this.writes.push([...takes.keys()]);
    const before = this.held.get(shoot.id)?.takes ?? new Map<number, HeldTake>();
    this.held.set(shoot.id, { shoot, takes: new Map([...before, ...takes]) });
  }

  async shoots(): Promise<ShelvedShoot[]> {
    return [...this.held.values()].map(({ shoot }) => shoot).sort((a, b) => b.lastAt - a.lastAt);
  }

  async takesOf(id: string): Promise<HeldTake[]> {
    const takes = [...(this.held.get(id)?.takes ?? [])].sort(([a], [b]) => a - b);
    return takes.map(([, take]) => take);
  }

  async remove(id: string): Promise<void> {
    this.held.delete(id);
  }
}
