import type { WritableEntry, WritableFolder } from '../../src/sources/write-folder.ts';

export type Trouble = 'full' | 'revoked' | 'gone' | null;

/** A folder as a browser hands it out: an entry is there, empty, as soon as it is created, and filled when it is closed. */
export class FolderInMemory implements WritableFolder {
  readonly name = 'tumblers';
  readonly files = new Map<string, string>();
  readonly folders = new Set<string>();
  /** Writables that were neither closed nor aborted. */
  open = 0;
  /** What the next writes come upon, and where. */
  trouble: Trouble = null;
  troubleAt: 'name' | 'write' | 'close' = 'write';
  /** Called before each write, for what happens meanwhile. */
  beforeWrite: () => void | Promise<void> = () => {};

  async getFileHandle(name: string, { create = false }: { create?: boolean } = {}): Promise<WritableEntry> {
    await this.moment('name');
    if (/[\\/]|^\.*$/.test(name)) throw new TypeError('Name is not allowed.');
    const key = [...this.files.keys()].find((held) => held.toLowerCase() === name.toLowerCase());
    if (this.folders.has(name)) throw new DOMException('It is a folder.', 'TypeMismatchError');
    if (key === undefined && !create) throw new DOMException('There is none.', 'NotFoundError');
    const at = key ?? name;
    if (key === undefined) this.files.set(at, '');
    return {
      getFile: async () => ({ size: this.files.get(at)!.length }),
      createWritable: async () => {
        this.open++;
        let written = '';
        let isOpen = true;
        const end = () => {
          if (isOpen) this.open--;
          isOpen = false;
        };
        return {
          write: async (data) => {
            await this.beforeWrite();
            await this.moment('write');
            written += await data.text();
          },
          close: async () => {
            await this.moment('close');
            if (!isOpen) throw new TypeError('It is closed.');
            this.files.set(at, written);
            end();
          },
          abort: async () => end(),
        };
      },
    };
  }

  async removeEntry(name: string): Promise<void> {
    if (!this.files.delete(name)) throw new DOMException('There is none.', 'NotFoundError');
  }

  private async moment(at: FolderInMemory['troubleAt']): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve, 1));
    if (this.troubleAt !== at || this.trouble === null) return;
    const name = { full: 'QuotaExceededError', revoked: 'NotAllowedError', gone: 'NotFoundError' }[
      this.trouble
    ];
    throw new DOMException('As the browser words it.', name);
  }
}
