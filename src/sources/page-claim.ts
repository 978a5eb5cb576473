/** As much of the browser's locks as is needed here. */
interface Locks {
  request(
    name: string,
    options: { ifAvailable: true },
    held: (lock: object | null) => Promise<void>,
  ): Promise<void>;
}

/** Whether this browser can tell whether another page has claimed a name. */
export const tellsPagesApart = (): boolean => globalThis.navigator?.locks !== undefined;

/**
 * Claims a name for this page for as long as it is open; whether no other page has it. Without locks, as on an origin
 * that is not secure, every claim is granted.
 */
export function claimForPage(
  name: string,
  locks: Locks | undefined = globalThis.navigator?.locks as Locks | undefined,
): Promise<boolean> {
  if (locks === undefined) return Promise.resolve(true);
  return new Promise((resolve, reject) => {
    locks
      .request(name, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null ? Promise.resolve() : new Promise<void>(() => {}); // held until the page is gone
      })
      .catch(reject);
  });
}
