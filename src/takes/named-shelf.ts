import type { ShelfChange, ShelvedShoot, TakeShelf } from './take-shelf.ts';

/** Thrown where takes were given no shelf: nothing is to be kept. */
export class NoShelfError extends Error {
  override readonly name = 'NoShelfError';
}

/** A shelf whose name is known only once it is used; without a name nothing lies on it, and nothing can be put there. */
export class NamedShelf implements TakeShelf {
  private readonly made = new Map<string, TakeShelf>();

  constructor(
    private readonly name: () => string | null,
    private readonly make: (name: string) => TakeShelf,
  ) {}

  async put(shoot: ShelvedShoot, change: ShelfChange) {
    return this.shelf().put(shoot, change);
  }

  async shoots() {
    return this.name() === null ? [] : this.shelf().shoots();
  }

  async shoot(id: string) {
    return this.shelf().shoot(id);
  }

  async takesOf(shoot: ShelvedShoot) {
    return this.shelf().takesOf(shoot);
  }

  async evidenceOf(shootId: string, takeId: string) {
    return this.shelf().evidenceOf(shootId, takeId);
  }

  async tidy(id: string) {
    return this.shelf().tidy(id);
  }

  async remove(id: string) {
    return this.shelf().remove(id);
  }

  private shelf(): TakeShelf {
    const name = this.name();
    if (name === null) throw new NoShelfError('no shelf was given');
    const shelf = this.made.get(name) ?? this.make(name);
    this.made.set(name, shelf);
    return shelf;
  }
}
