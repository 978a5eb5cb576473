import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { fetchedPart } from '../engine/fetched-part.ts';
import { quietTask } from './in-tasks.ts';

/**
 * Has the foot of a report fetched once its host is drawn; its elements, which stand there by name, then come to life
 * with what was set on them.
 */
export class FetchedFoot implements ReactiveController {
  /** Why it is not there, in a sentence; `null` while it is fetched and once it is there. */
  failure: string | null = null;

  private asked: Promise<void> | null = null;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly load: () => Promise<unknown>,
  ) {
    host.addController(this);
  }

  hostUpdated(): void {
    this.asked ??= this.fetch();
  }

  /** Tries again to fetch what could not be. */
  readonly again = (): void => {
    this.failure = null;
    this.host.requestUpdate();
    this.asked = this.fetch();
  };

  private async fetch(): Promise<void> {
    await quietTask();
    try {
      await fetchedPart('compares takes, corrects frames and saves plots', this.load);
    } catch (error) {
      this.failure = (error as Error).message;
      this.host.requestUpdate();
    }
  }
}
