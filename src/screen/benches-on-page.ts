import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** What the takes of an element whose page says nothing of a shelf are kept on. */
const USUAL_SHELF = 'evenfield';

/** What tells which bench somebody works with. */
const TOUCHES = ['pointerdown', 'focusin', 'drop'] as const;

/**
 * The elements that stand on one page, so that none takes what is meant for another: keys that are pressed on the page
 * itself, files that are dropped on it, the shelf that takes are kept on.
 */
export class BenchesOnPage {
  /** The shelf that each one has; `null`: none. */
  private readonly shelves = new Map<EventTarget, string | null>();
  /** Where somebody was at work last; `null` where that was none of them. */
  private used: EventTarget | null = null;
  private wasTouched = false;
  /** Whether the whole page is the tool's: whoever presses beside the only element there has gone to no other work. */
  isOwnPage = false;

  constructor(private readonly around: () => EventTarget = () => window) {}

  /** Takes one in, and gives it the shelf that it asks for, unless another has that: no name asks for the usual one. */
  add(bench: EventTarget, named: string | null): void {
    if (this.shelves.size === 0)
      for (const name of TOUCHES) this.around().addEventListener(name, this.touched, true);
    const shelf = named === '' ? null : named === null ? USUAL_SHELF : `${USUAL_SHELF} ${named}`;
    this.shelves.set(bench, [...this.shelves.values()].includes(shelf) ? null : shelf);
  }

  remove(bench: EventTarget): void {
    this.shelves.delete(bench);
    if (this.used === bench) this.used = null;
    if (this.shelves.size === 0)
      for (const name of TOUCHES) this.around().removeEventListener(name, this.touched, true);
  }

  shelfOf(bench: EventTarget): string | null {
    return this.shelves.get(bench) ?? null;
  }

  /** Whether a key that is pressed on the page itself is for this one: the one worked with last, or the only one. */
  isMeant(bench: EventTarget | null): boolean {
    if (this.shelves.size <= 1 && (this.isOwnPage || !this.wasTouched)) return true;
    return bench !== null && this.used === bench;
  }

  /** Which one files are for that are dropped on these elements: the one that they lie on, else the only one. */
  droppedOn(path: readonly EventTarget[]): EventTarget | null {
    const benches = [...this.shelves.keys()];
    return benches.find((bench) => path.includes(bench)) ?? (benches.length === 1 ? benches[0]! : null);
  }

  /** Where a file can be dropped for one of them, in words. */
  get dropPlace(): string {
    return this.shelves.size > 1 ? 'this part of the page' : 'this page';
  }

  private readonly touched = (event: Event) => {
    const path = event.composedPath();
    const used = path.find((each) => this.shelves.has(each));
    // the page itself is nobody else's: whoever presses on it has not gone to other work
    if (used === undefined && isPage(path[0])) return;
    this.wasTouched = true;
    this.used = used ?? null;
  };
}

function isPage(target: EventTarget | undefined): boolean {
  const { localName } = (target ?? {}) as { localName?: string };
  return localName === undefined || ['html', 'body', 'main'].includes(localName);
}

/** The one of this page. */
export const benchesOnPage = new BenchesOnPage();

/** A bench's place among those of the page, and the shelf that it has there. */
export class PlaceOnPage implements ReactiveController {
  /** Kept while the bench is off the page, where something may still be put on it. */
  shelf: string | null = null;

  constructor(private readonly bench: ReactiveControllerHost & Element) {
    bench.addController(this);
  }

  hostConnected(): void {
    benchesOnPage.add(this.bench, this.bench.getAttribute('shelf'));
    this.shelf = benchesOnPage.shelfOf(this.bench);
  }

  hostDisconnected(): void {
    benchesOnPage.remove(this.bench);
  }
}
