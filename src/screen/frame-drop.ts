import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { droppedFolder, isLoneFolder } from '../sources/dropped-files.ts';
import type { FollowedFolder } from '../sources/watched-folder.ts';
import { benchesOnPage } from './benches-on-page.ts';

/** Takes files that are dropped anywhere on the page while its host is on it, but where a part of it takes them itself. */
export class FrameDrop implements ReactiveController {
  /** Whether files are held over the page. */
  isOver = false;

  constructor(
    private readonly host: ReactiveControllerHost & EventTarget,
    private readonly take: (files: readonly File[]) => void,
    private readonly follow: (folder: FollowedFolder) => void,
    /** Called where a folder was dropped that the browser does not hand out. */
    private readonly refuseFolder: () => void,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    for (const [name, listener] of this.listeners) window.addEventListener(name, listener);
  }

  hostDisconnected(): void {
    for (const [name, listener] of this.listeners) window.removeEventListener(name, listener);
  }

  private readonly over = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    const meant = benchesOnPage.droppedOn(event.composedPath());
    this.show(!event.defaultPrevented && meant === this.host);
    // otherwise the browser would open the file instead of the page
    if (meant === this.host || meant === null) event.preventDefault();
  };

  private readonly leave = (event: DragEvent) => {
    if (event.relatedTarget === null) this.show(false);
  };

  private readonly dropped = (event: DragEvent) => {
    const files = Array.from(event.dataTransfer?.files ?? []);
    if (!event.dataTransfer?.types.includes('Files')) return;
    this.show(false);
    const meant = benchesOnPage.droppedOn(event.composedPath());
    if (event.defaultPrevented || (meant !== this.host && meant !== null)) return;
    event.preventDefault();
    if (meant === null) return;
    const folder = droppedFolder(event.dataTransfer); // to be asked for before anything is awaited
    if (folder === null && isLoneFolder(event.dataTransfer)) return this.refuseFolder();
    if (folder === null) return files.length > 0 && this.take(files);
    void folder.then((found) => found && this.follow(found));
  };

  private readonly listeners = [
    ['dragover', this.over],
    ['dragleave', this.leave],
    ['drop', this.dropped],
  ] as const;

  private show(isOver: boolean): void {
    if (this.isOver === isOver) return;
    this.isOver = isOver;
    this.host.requestUpdate();
  }
}
