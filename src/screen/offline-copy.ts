/**
 * How far the copy for use without a network is. `newer`: a newer version waits, whole, beside this one's;
 * `newer-blocked`: it was asked for while another page was open; `newer-silent`: the worker of this one's copy, which has
 * to hand over, did not answer; `silent`: the same, where nothing newer waits.
 */
export type OfflineState =
  | 'unknown'
  | 'fetching'
  | 'ready'
  | 'newer'
  | 'newer-blocked'
  | 'newer-silent'
  | 'silent'
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

/** A worker that is asked first mends its copy, which may take longer: a later answer is heard too. */
const ANSWER_WITHIN_MS = 10_000;

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
    const answer = await inTime(this.attended(active));
    if (answer === null) this.become('newer-silent');
    else if (answer.others > 0) this.become('newer-blocked');
    else this.wishes.goTo(`./?newer=${answer.id}`);
  }

  private watch(worker: ServiceWorker | null): void {
    worker?.addEventListener('statechange', () => void this.look());
  }

  private async look(): Promise<void> {
    const { installing, waiting, active } = this.registration!;
    if (active === null) return this.become(installing || waiting ? 'fetching' : 'failed');
    if (waiting !== null) this.become('newer');
    const attended = this.attended(active); // where a newer one waits too: it has this page served from the copy
    const answer = await inTime(attended);
    this.tell(answer);
    if (answer === null) void attended.then((late) => this.tell(late));
  }

  /** What the worker answered; `null` where it did not, so far. A newer version that waits is whole, whatever this is. */
  private tell(answer: Attended | null): void {
    if (this.registration!.waiting !== null) {
      if (!this.state.startsWith('newer')) this.become('newer');
    } else if (answer !== null) this.become(answer.isWhole ? 'ready' : 'failed');
    else if (this.state === 'unknown' || this.state === 'fetching') this.become('silent');
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

/** `null` where it takes too long. */
function inTime<Answer>(answer: Promise<Answer>): Promise<Answer | null> {
  return new Promise((resolve) => {
    const late = setTimeout(() => resolve(null), ANSWER_WITHIN_MS);
    void answer.then((given) => {
      clearTimeout(late);
      resolve(given);
    });
  });
}
