import { blobsIn, fromJson, toJson } from './structured-json.ts';

/** The number that this Evenfield writes. */
export const JOB_SCHEMA = 1;
const NAME = 'evenfield.job/';

/** From an older schema's parts to those of the next one. A number that is not here is refused by name. */
export type JobOpeners = Readonly<Record<number, (parts: readonly unknown[]) => readonly unknown[]>>;

/** No schema before the first one was ever handed out, so there is none to open yet. */
const OLDER: JobOpeners = {};

/** Most of what a job unpacks to: hundreds of takes. What claims more, or goes on beyond what it claims, is not unpacked. */
const MOST_BYTES = 256 * 2 ** 20;
const MOST_HEADER_BYTES = 4096;

/** Why a file is not opened as a job. */
export class JobRefusal extends Error {
  override name = 'JobRefusal';

  constructor(
    readonly reason: 'not-a-job' | 'other-schema' | 'other-takes' | 'damaged' | 'too-large',
    /** The number that another schema has: of the file, or of the takes in it. */
    readonly schema: number | null = null,
  ) {
    super(`the file is not opened as a job: ${reason}`);
  }
}

interface Header {
  readonly schema: string;
  /** Of what follows the header's line. */
  readonly lines: number;
  readonly bytes: number;
  /** Hex; `null` where the platform had none to offer (an insecure origin): gzip's own checksum still holds. */
  readonly sha256: string | null;
}

/**
 * Structured data as one file that anyone can read: gzip of UTF-8 text, each line of it JSON (as `structured-json.ts` has
 * it). The first line is the header, each further line one part. `between`: what to wait for from part to part, so that a
 * page answers meanwhile.
 */
export async function writeJob(
  parts: Iterable<unknown> | AsyncIterable<unknown>,
  between: () => Promise<void> = () => Promise.resolve(),
): Promise<Blob> {
  const lines: Uint8Array<ArrayBuffer>[] = [];
  for await (const part of parts) {
    await between();
    const blobs = new Map<Blob, Uint8Array>();
    for (const blob of blobsIn(part)) blobs.set(blob, new Uint8Array(await blob.arrayBuffer()));
    lines.push(
      new TextEncoder().encode(`${JSON.stringify(toJson(part, blobs))}\n`) as Uint8Array<ArrayBuffer>,
    );
  }
  const body = new Blob(lines);
  const header: Header = {
    schema: `${NAME}${JOB_SCHEMA}`,
    lines: lines.length,
    bytes: body.size,
    sha256: await sha256(await body.arrayBuffer()),
  };
  const whole = new Blob([`${JSON.stringify(header)}\n`, body]);
  const packed = await new Response(whole.stream().pipeThrough(new CompressionStream('gzip'))).blob();
  return new Blob([packed], { type: 'application/gzip' });
}

/** Whether a file begins as gzip does; no picture does. */
export async function looksLikeJob(file: Blob): Promise<boolean> {
  const [first, second] = new Uint8Array(await file.slice(0, 2).arrayBuffer());
  return first === 0x1f && second === 0x8b;
}

/** The parts of a job, as they were written. @throws {@link JobRefusal}. */
export async function readJob(
  file: Blob,
  between: () => Promise<void> = () => Promise.resolve(),
  older: JobOpeners = OLDER,
): Promise<readonly unknown[]> {
  if (!(await looksLikeJob(file))) throw new JobRefusal('not-a-job');
  if (file.size > MOST_BYTES) throw new JobRefusal('too-large');
  const unpacked = new Unpacked(file);
  try {
    const header = checkedHeader(await unpacked.line(MOST_HEADER_BYTES));
    const schema = schemaOf(header, older);
    const { bytes, lines, sha256: digest } = header as Header;
    if (!isCount(bytes) || !isCount(lines) || lines > bytes) throw new JobRefusal('damaged');
    if (bytes > MOST_BYTES) throw new JobRefusal('too-large');
    const body = await unpacked.rest(bytes);
    const found = await sha256(body.buffer);
    if (digest !== null && found !== null && digest !== found) throw new JobRefusal('damaged');
    let parts: readonly unknown[] = await partsOf(body, lines, between);
    for (let from = schema; from < JOB_SCHEMA; from++) parts = older[from]!(parts);
    return parts;
  } catch (error) {
    throw error instanceof JobRefusal ? error : new JobRefusal('damaged');
  } finally {
    unpacked.stop();
  }
}

function checkedHeader(line: string): { readonly schema: string } {
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

async function partsOf(body: Uint8Array, lines: number, between: () => Promise<void>): Promise<unknown[]> {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const parts: unknown[] = [];
  for (let from = 0; from < body.length; ) {
    const end = body.indexOf(0x0a, from);
    if (end < 0 || parts.length === lines) throw new JobRefusal('damaged');
    await between();
    parts.push(fromJson(JSON.parse(decoder.decode(body.subarray(from, end)))));
    from = end + 1;
  }
  if (parts.length !== lines) throw new JobRefusal('damaged');
  return parts;
}

async function sha256(bytes: BufferSource): Promise<string | null> {
  const { subtle } = globalThis.crypto;
  if (subtle === undefined) return null;
  const digest = new Uint8Array(await subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** A packed file, of which no more is unpacked than is asked for. */
class Unpacked {
  private readonly reader: ReadableStreamDefaultReader<Uint8Array>;
  private left: Uint8Array = new Uint8Array(0);

  constructor(file: Blob) {
    this.reader = file.stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  }

  /** The text up to the end of its first line. @throws JobRefusal where that is longer than a header's. */
  async line(mostBytes: number): Promise<string> {
    for (;;) {
      const end = this.left.indexOf(0x0a);
      if (end >= 0) {
        const line = new TextDecoder('utf-8', { fatal: true }).decode(this.left.subarray(0, end));
        this.left = this.left.subarray(end + 1);
        return line;
      }
      if (this.left.length > mostBytes) throw new JobRefusal('not-a-job');
      const { done, value } = await this.reader.read();
      if (done) throw new JobRefusal('not-a-job');
      this.left = joined([this.left, value]);
    }
  }

  /** All that follows, which has to be so many bytes. */
  async rest(bytes: number): Promise<Uint8Array<ArrayBuffer>> {
    const pieces = [this.left];
    let length = this.left.length;
    for (;;) {
      if (length > bytes) throw new JobRefusal('damaged');
      const { done, value } = await this.reader.read();
      if (done) break;
      pieces.push(value);
      length += value.length;
    }
    if (length !== bytes) throw new JobRefusal('damaged');
    return joined(pieces);
  }

  stop(): void {
    this.reader.cancel().catch(() => {}); // it may have failed already, which was told
  }
}

function joined(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
