import type { TakeShelf } from '../takes/take-shelf.ts';

/** What keeping shoots takes of the browser. */
export interface KeptWishes {
  readonly shelf: TakeShelf;
  /** Claims a shoot for this page; whether no other page has it. */
  readonly claim: (name: string) => Promise<boolean>;
  readonly newId?: () => string;
  readonly now?: () => number;
  readonly pause?: () => Promise<void>;
  /** Bytes that may still be kept; `null` where nobody knows. */
  readonly bytesLeft?: () => Promise<number | null>;
  /** Asks the browser to keep what it has; called at the first take that is kept. */
  readonly keepForGood?: () => Promise<boolean>;
}
