import { ReadFailure } from './read-failure.ts';

/** One frame as a page hands it over: a picked or dropped file, bytes of any kind, or an address as text. */
export type OneSource = Blob | string;

/** A frame by name and reference; its bytes are read where they are decoded. */
export interface NamedBlob {
  readonly name: string;
  readonly blob: Blob;
}

/**
 * Makes one frame readable: an address is fetched, a file taken as it is.
 *
 * @throws {@link ReadFailure} `unreadable-file` where the address does not answer, `cancelled` by the signal.
 */
export async function openSource(source: OneSource, signal?: AbortSignal): Promise<NamedBlob> {
  const name = sourceName(source);
  try {
    signal?.throwIfAborted();
    if (typeof source !== 'string') return { name, blob: source };
    const response = await fetch(source, signal === undefined ? {} : { signal });
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    return { name, blob: await response.blob() };
  } catch (cause) {
    if (signal?.aborted) throw new ReadFailure('cancelled', `Reading ${name} was cancelled.`, name, cause);
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new ReadFailure(
      'unreadable-file',
      `${name} could not be fetched (${why}). Check the address, or choose the file itself.`,
      name,
      cause,
    );
  }
}

/** A name to speak of a source by: the file's, or the end of the address. */
export function sourceName(source: OneSource): string {
  if (typeof source !== 'string') return source instanceof File ? source.name : 'unnamed frame';
  const path = source.split(/[?#]/)[0]!;
  const last = path.slice(path.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(last) || source;
  } catch {
    return last; // a stray % is part of the name
  }
}
