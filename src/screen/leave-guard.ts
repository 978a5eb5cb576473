import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Has the browser ask before the page is left or reloaded while there is something to lose. */
export class LeaveGuard implements ReactiveController {
  constructor(
    host: ReactiveControllerHost,
    private readonly hasSomethingToLose: () => boolean,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    window.addEventListener('beforeunload', this.ask);
  }

  hostDisconnected(): void {
    window.removeEventListener('beforeunload', this.ask);
  }

  private readonly ask = (event: BeforeUnloadEvent) => {
    if (this.hasSomethingToLose()) event.preventDefault();
  };
}
