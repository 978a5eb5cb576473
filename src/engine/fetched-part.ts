import { EngineError } from './engine-error.ts';

/**
 * A part of the tool that is fetched when it is first needed, by an import that the bundler splits off.
 *
 * @param does what the part does, for the sentence that says it could not be fetched: "reads PNG files".
 * @throws {@link EngineError} `worker-lost` where it can't be fetched or started; asking again tries again.
 */
export async function fetchedPart<Part>(does: string, load: () => Promise<Part>): Promise<Part> {
  try {
    return await load();
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new EngineError(
      'worker-lost',
      `The part that ${does} could not be fetched or started (${why.replace(/\.+$/, '')}). See whether this machine is online and try again, or reload the page.`,
      {},
      { cause },
    );
  }
}
