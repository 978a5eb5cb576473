/**
 * How far the copy for use without a network is. `newer`: a newer version waits beside a whole copy of this one;
 * `newer-blocked`: it was asked for while another page was open.
 */
export type OfflineState =
  | 'unknown'
  | 'fetching'
  | 'ready'
  | 'newer'
  | 'newer-blocked'
  | 'failed'
  | 'impossible';

export interface OfflineWishes {
  /** `null` where the browser or the address allows no service worker. */
  readonly container: ServiceWorkerContainer | null;
  /** The service worker's address; its folder is what it serves. */
  readonly address: string;
  /** The page's own script, which tells of which version it is. */
  readonly script: string;
  /** Leaves the page for another address of it. */
  readonly goTo: (address: string) => void;
}

/** What the copy's worker answers a page. */
interface Attended {
  readonly isWhole: boolean;
  readonly others: number;
  readonly id: string;
}

/**
 * The copy of the page that the browser keeps for use without a network, as the page sees it.
 * @event change - whenever its state did
 */
export class OfflineCopy extends EventTarget {
  state: OfflineState = 'unknown';
  private registration: ServiceWorkerRegistration | null = null;

  constructor(private readonly wishes: OfflineWishes) {
    super();
  }

  /** Has the browser fetch the copy, or look for a newer one. */
  async begin(): Promise<void> {
    const { container, address } = this.wishes;
    if (container === null) return this.become('impossible');
    try {
      const registration = await container.register(address, { updateViaCache: 'none' });
      this.registration = registration;
      registration.addEventListener('updatefound', () => this.watch(registration.installing));
      this.watch(registration.installing);
      await this.look();
    } catch {
      this.become('failed');
    }
  }

  /** Loads the newer version in place of this page, unless another page is open. */
  async takeNewer(): Promise<void> {
    const active = this.registration?.active;
    if (!active) return;
    const { others, id } = await this.attended(active);
    if (others > 0) this.become('newer-blocked');
    else this.wishes.goTo(`./?newer=${id}`);
  }

  private watch(worker: ServiceWorker | null): void {
    worker?.addEventListener('statechange', () => void this.look());
  }

  private async look(): Promise<void> {
    const { installing, waiting, active } = this.registration!;
    if (active === null) return this.become(installing || waiting ? 'fetching' : 'failed');
    const { isWhole } = await this.attended(active);
    if (!isWhole) this.become('failed');
    else this.become(this.registration!.waiting === null ? 'ready' : 'newer');
  }

  private attended(worker: ServiceWorker): Promise<Attended> {
    return new Promise((resolve) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = ({ data }) => {
        port1.close();
        resolve(data as Attended);
      };
      worker.postMessage({ ask: 'attend', script: this.wishes.script }, [port2]);
    });
  }

  private become(state: OfflineState): void {
    if (state === this.state) return;
    this.state = state;
    this.dispatchEvent(new Event('change'));
  }
}
