import type { CameraResponse } from '../engine/response/camera-response.ts';
import { checkResponse } from '../engine/response/check-response.ts';
import { ReadFailure } from './read-failure.ts';

/** A camera's response as it is kept on this machine. */
export interface KeptResponse {
  readonly response: CameraResponse;
  /** Whether the camera's pictures are to be read by it. */
  readonly isUsed: boolean;
}

/** As much of the browser's own storage as is needed. */
export type TextStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const PREFIX = 'evenfield.response/1 ';
const NAMES = 'evenfield.responses/1';
/** What a response of a camera that its files do not name is kept under. */
const UNNAMED = '';

/** Responses by their cameras' names, kept over a reload until each is forgotten. */
export class KeptResponses {
  constructor(private readonly storage: () => TextStorage | null = browserStorage) {}

  /** `null` where none is kept, or what is kept can't be read. */
  of(camera: string | null): KeptResponse | null {
    try {
      const text = this.storage()?.getItem(PREFIX + (camera ?? UNNAMED));
      if (!text) return null;
      const kept = JSON.parse(text) as { response: unknown; isUsed: unknown };
      return { response: checkResponse(kept.response), isUsed: kept.isUsed === true };
    } catch {
      return null; // damaged, or not ours
    }
  }

  /** Those that their cameras' pictures are to be read by. */
  used(): CameraResponse[] {
    return this.names().flatMap((name) => {
      const kept = name === UNNAMED ? null : this.of(name);
      return kept?.isUsed ? [kept.response] : [];
    });
  }

  /** @throws {@link ReadFailure} `storage-full` where there is no room, or nothing may be kept here. */
  keep(response: CameraResponse, isUsed: boolean): void {
    const name = response.camera ?? UNNAMED;
    try {
      const storage = this.storage();
      if (storage === null) throw new Error('the browser keeps nothing for this page');
      storage.setItem(PREFIX + name, JSON.stringify({ response, isUsed } satisfies KeptResponse));
      storage.setItem(NAMES, JSON.stringify([...new Set([...this.names(), name])]));
    } catch (cause) {
      throw new ReadFailure(
        'storage-full',
        `The response can be used now, but not kept on this machine (${cause instanceof Error ? cause.message : String(cause)}). It will have to be recovered again after the page is closed; make room for the page’s data, or allow it to keep any.`,
        null,
        cause,
      );
    }
  }

  forget(camera: string | null): void {
    try {
      const storage = this.storage();
      storage?.removeItem(PREFIX + (camera ?? UNNAMED));
      storage?.setItem(NAMES, JSON.stringify(this.names().filter((name) => name !== (camera ?? UNNAMED))));
    } catch {
      // where nothing can be kept there is nothing to forget
    }
  }

  private names(): string[] {
    try {
      const names: unknown = JSON.parse(this.storage()?.getItem(NAMES) ?? '[]');
      return Array.isArray(names) ? names.filter((name) => typeof name === 'string') : [];
    } catch {
      return [];
    }
  }
}

/** Pages that may keep nothing throw at the mere look. */
function browserStorage(): TextStorage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}
