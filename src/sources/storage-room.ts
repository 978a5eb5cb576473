/** As much of the browser's storage as is needed here. */
export interface Storage {
  estimate(): Promise<{ quota?: number; usage?: number }>;
  persist?(): Promise<boolean>;
  persisted?(): Promise<boolean>;
}

interface Asking {
  readonly storage: Storage | undefined;
  readonly permissions: Pick<Permissions, 'query'> | undefined;
  /** Only browsers of one family have this; they grant or refuse by themselves and ask nobody. */
  readonly userAgentData?: unknown;
}

/** Bytes that this page may still keep; `null` where the browser does not tell. */
export async function bytesLeft(
  storage: Storage | undefined = globalThis.navigator?.storage as Storage | undefined,
): Promise<number | null> {
  const { quota, usage } = (await storage?.estimate().catch(() => null)) ?? {};
  return quota === undefined || usage === undefined ? null : Math.max(0, quota - usage);
}

/** Whether the browser promised not to clear away what is kept. */
export async function isKeptForGood(
  storage: Storage | undefined = globalThis.navigator?.storage as Storage | undefined,
): Promise<boolean> {
  return (await storage?.persisted?.().catch(() => false)) ?? false;
}

/**
 * Asks the browser not to clear away what is kept when it runs short of room, where it decides that by itself: nobody is
 * to be asked for a permission in the middle of a shoot. Whether it promises.
 */
export async function keepForGood(
  { storage, permissions, userAgentData }: Asking = globalThis.navigator as unknown as Asking,
): Promise<boolean> {
  try {
    if (!storage?.persist) return false;
    if (await storage.persisted?.()) return true;
    const asked = { name: 'persistent-storage' as PermissionName };
    const state = await permissions?.query(asked).then(
      (answer) => answer.state,
      () => null, // a browser that knows no such permission asks nobody for it
    );
    if (state === 'prompt' && userAgentData === undefined) return false;
    return await storage.persist();
  } catch {
    return false;
  }
}
