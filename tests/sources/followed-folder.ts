import type { FolderEntry, FollowedFolder } from '../../src/sources/watched-folder.ts';

/** A folder that grows while it is watched, with a clock of its own. */
export class GrowingFolder implements FollowedFolder {
  readonly name = 'tethered';
  now = 0;
  trouble: 'NotFoundError' | 'NotAllowedError' | null = null;
  /** Times that a file may still be opened before another program holds it; further times fail. */
  opensLeft = Number.POSITIVE_INFINITY;
  private readonly held = new Map<string, { size: number; modified: number }>();

  /** A file that is written or goes on growing, at this moment where no other is given. */
  write(name: string, size: number, modified = this.now): void {
    this.held.set(name, { size, modified });
  }

  remove(name: string): void {
    this.held.delete(name);
  }

  async *values(): AsyncIterable<FolderEntry> {
    if (this.trouble) throw new DOMException('As the browser words it.', this.trouble);
    for (const name of [...this.held.keys()])
      yield {
        kind: 'file',
        name,
        getFile: async () => {
          const held = this.held.get(name);
          if (!held) throw new DOMException('There is none.', 'NotFoundError');
          if (this.opensLeft-- <= 0) throw new DOMException('It is held.', 'NotReadableError');
          return new File([new Uint8Array(held.size)], name, { lastModified: held.modified });
        },
      };
    yield { kind: 'directory', name: 'older.jpg' };
  }
}
