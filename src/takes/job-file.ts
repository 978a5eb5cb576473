import { JOB_LIMITS, JOB_SCHEMA, type JobLimits, JobRefusal, looksLikeJob } from './job-refusal.ts';
import { RunningSha256 } from './running-sha256.ts';
import { blobsIn, fromJson, toJson } from './structured-json.ts';
import { LINE_END, UnpackedLines } from './unpacked-lines.ts';

export { JOB_LIMITS, type JobLimits, JobRefusal, looksLikeJob } from './job-refusal.ts';

const NAME = 'evenfield.job/';

/** From an older schema's part to that of the next one. A number that is not here is refused by name. */
export type JobOpeners = Readonly<Record<number, (part: unknown) => unknown>>;

/** No schema before the first one was ever handed out, so there is none to open yet. */
const OLDER: JobOpeners = {};

const MOST_HEADER_BYTES = 4096;

interface Header {
  readonly schema: string;
  /** Of what follows the header's line. */
  readonly lines: number;
  readonly bytes: number;
  /** Hex, of the same; `null` in a job that was written where none was to be had: gzip's own checksum still holds. */
  readonly sha256: string | null;
}

/**
 * Structured data as one file that anyone can read: gzip of UTF-8 text, each line of it JSON (as `structured-json.ts` has
 * it). The first line is the header, each further line one part. One part at a time is in memory. `between`: what to wait
 * for from part to part, so that a page answers meanwhile. @throws {@link JobRefusal} for what would not be opened again.
 */
export async function writeJob(
  parts: Iterable<unknown> | AsyncIterable<unknown>,
  between: Between = AT_ONCE,
  limits: JobLimits = JOB_LIMITS,
): Promise<Blob> {
  const lines: Blob[] = [];
  const digest = new RunningSha256();
  let bytes = 0;
  for await (const part of parts) {
    await between();
    const blobs = new Map<Blob, Uint8Array>();
    for (const blob of blobsIn(part)) blobs.set(blob, new Uint8Array(await blob.arrayBuffer()));
    const line = new TextEncoder().encode(`${JSON.stringify(toJson(part, blobs))}\n`);
    bytes += line.length;
    if (line.length > limits.lineBytes || bytes > limits.bytes) throw new JobRefusal('too-large');
    await between();
    digest.add(line);
    lines.push(new Blob([line])); // which the browser may put on its disk
  }
  const header: Header = {
    schema: `${NAME}${JOB_SCHEMA}`,
    ...{ lines: lines.length, bytes, sha256: digest.digest() },
  };
  const whole = new Blob([`${JSON.stringify(header)}\n`, ...lines]);
  const packed = await new Response(whole.stream().pipeThrough(new CompressionStream('gzip'))).blob();
  return new Blob([packed], { type: 'application/gzip' });
}

/** What to wait for from time to time. */
type Between = () => Promise<void>;
const AT_ONCE: Between = () => Promise.resolve();

/**
 * The parts of a job, as they were written, one after the other and as often as they are asked for. The whole file is gone
 * through first, in pieces, so that what is damaged is refused before anything is made of it.
 * @throws {@link JobRefusal}, here or in a part.
 */
export async function readJob(
  file: Blob,
  between: Between = AT_ONCE,
  older: JobOpeners = OLDER,
  limits: JobLimits = JOB_LIMITS,
): Promise<AsyncIterable<unknown>> {
  if (!(await looksLikeJob(file))) throw new JobRefusal('not-a-job');
  if (file.size > limits.bytes) throw new JobRefusal('too-large');
  const unpacked = new UnpackedLines(file);
  try {
    const header = checkedHeader(await unpacked.line(MOST_HEADER_BYTES));
    const schema = schemaOf(header, older);
    await checkBody(unpacked, header as Header, between, limits);
    const { lines } = header as Header;
    return { [Symbol.asyncIterator]: () => partsOf(file, lines, { schema, older, between, limits }) };
  } catch (error) {
    throw asRefusal(error);
  } finally {
    unpacked.stop();
  }
}

const asRefusal = (error: unknown) => (error instanceof JobRefusal ? error : new JobRefusal('damaged'));

function checkedHeader(line: string | null): { readonly schema: string } {
  if (line === null) throw new JobRefusal('not-a-job');
  let header: unknown;
  try {
    header = JSON.parse(line);
  } catch {
    throw new JobRefusal('not-a-job');
  }
  const schema = (header as { schema?: unknown } | null)?.schema;
  if (typeof schema !== 'string' || !schema.startsWith(NAME)) throw new JobRefusal('not-a-job');
  return header as { schema: string };
}

/** Its number, where every step from there to the present one is known. */
function schemaOf({ schema }: { readonly schema: string }, older: JobOpeners): number {
  const digits = schema.slice(NAME.length);
  if (!/^\d{1,6}$/.test(digits)) throw new JobRefusal('damaged');
  const number = Number(digits);
  for (let from = number; from !== JOB_SCHEMA; from++)
    if (from > JOB_SCHEMA || !Object.hasOwn(older, from)) throw new JobRefusal('other-schema', number);
  return number;
}

const isCount = (value: unknown) => Number.isSafeInteger(value) && (value as number) >= 0;

/** From time to time the page has to answer. */
const BYTES_BETWEEN = 2 ** 21;

/** Whether what follows the header is what it claims, of which a piece at a time is in memory. @throws {@link JobRefusal}. */
async function checkBody(
  unpacked: UnpackedLines,
  { bytes, lines, sha256 }: Header,
  between: Between,
  limits: JobLimits,
): Promise<void> {
  if (!isCount(bytes) || !isCount(lines) || lines > bytes) throw new JobRefusal('damaged');
  if (bytes > limits.bytes) throw new JobRefusal('too-large');
  const digest = new RunningSha256();
  let [found, ended, lineBytes, waitAt] = [0, 0, 0, BYTES_BETWEEN];
  for await (const piece of unpacked.rest()) {
    found += piece.length;
    if (found > bytes) throw new JobRefusal('damaged');
    let from = 0;
    for (let end = piece.indexOf(LINE_END); end >= 0; end = piece.indexOf(LINE_END, from)) {
      if (lineBytes + end - from > limits.lineBytes) throw new JobRefusal('too-large');
      lineBytes = 0;
      ended++;
      from = end + 1;
    }
    lineBytes += piece.length - from;
    if (lineBytes > limits.lineBytes) throw new JobRefusal('too-large');
    digest.add(piece);
    if (found < waitAt) continue;
    waitAt = found + BYTES_BETWEEN;
    await between();
  }
  const isWhole = found === bytes && ended === lines && lineBytes === 0;
  if (!isWhole || (sha256 !== null && sha256 !== digest.digest())) throw new JobRefusal('damaged');
}

interface PartWishes {
  readonly schema: number;
  readonly older: JobOpeners;
  readonly between: Between;
  readonly limits: JobLimits;
}

async function* partsOf(
  file: Blob,
  lines: number,
  { schema, older, between, limits }: PartWishes,
): AsyncGenerator<unknown> {
  const unpacked = new UnpackedLines(file);
  try {
    await unpacked.line(MOST_HEADER_BYTES);
    for (let i = 0; i < lines; i++) {
      await between();
      const line = await unpacked.line(limits.lineBytes);
      if (line === null) throw new JobRefusal('damaged');
      let part = fromJson(JSON.parse(line));
      for (let from = schema; from < JOB_SCHEMA; from++) part = older[from]!(part);
      yield part;
    }
  } catch (error) {
    throw asRefusal(error);
  } finally {
    unpacked.stop();
  }
}
