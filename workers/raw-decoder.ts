import { EngineError } from '../src/engine/engine-error.ts';
import type {
  DevelopedPicture,
  DevelopWishes,
  RawFile,
  RawMetadata,
  RawMosaic,
} from '../src/engine/intake/raw-file.ts';

/** As much of the module's one class as is used. */
interface LibrawInstance {
  open(bytes: Uint8Array, settings: object): void;
  metadata(full: boolean): RawMetadata;
  rawImageData(): RawMosaic | undefined;
  imageData(): Omit<DevelopedPicture, 'maximum'> | undefined;
  delete(): void;
}

/** What the module's own file hands out: it makes an instance of the decoder with memory of its own. */
export type MakeLibraw = (options: object) => Promise<{ readonly LibRaw: new () => LibrawInstance }>;

const PAGE_BYTES = 65536;
/** What the module asks for at least and at most; it grows in between. */
const MEMORY: WebAssembly.MemoryDescriptor = {
  initial: (256 * 2 ** 20) / PAGE_BYTES,
  maximum: 2 ** 31 / PAGE_BYTES,
  shared: true,
};

/**
 * Starts the decoder in memory of its own and opens a file in it. Once it is disposed of and out of reach, that memory
 * goes with it.
 *
 * @param options where the module finds its WebAssembly: `wasmBinary`, or `locateFile`.
 * @throws Error whose message ends in "code" and the decoder's own number; {@link EngineError} `worker-lost` where the
 * decoder can't be started.
 */
export async function openRawFile(
  makeLibraw: MakeLibraw,
  options: object,
  bytes: Uint8Array,
): Promise<RawFile> {
  const memory = new WebAssembly.Memory(MEMORY);
  const silent = () => {}; // what it prints comes as an error too
  const started = withoutWaiting(() =>
    makeLibraw({ ...options, wasmMemory: memory, print: silent, printErr: silent }),
  );
  const { LibRaw } = await started.catch(notStarted);
  let instance: LibrawInstance | null = null;
  const call = <Result>(work: () => Result): Result => {
    try {
      return work();
    } catch (error) {
      throw spoken(error, memory);
    }
  };
  /** Anew each time: settings hold from opening on, and a file that was unpacked is not developed any more. */
  const opened = (settings: object): LibrawInstance => {
    instance?.delete();
    const next = new LibRaw();
    instance = next;
    call(() => next.open(bytes, settings));
    return next;
  };
  const metadata = call(() => opened({}).metadata(true));
  let isFresh = true;
  return {
    metadata,
    async mosaic() {
      const at = isFresh && instance ? instance : opened({});
      isFresh = false;
      return call(() => at.rawImageData()) ?? null;
    },
    async developed(wishes) {
      isFresh = false;
      const at = opened(settingsOf(wishes, metadata.filters));
      const picture = call(() => at.imageData());
      if (picture?.bits !== 16 || picture.data.length === 0)
        throw new Error('the decoder made no picture of this file: code -1');
      return { ...picture, maximum: call(() => at.metadata(true)).color_data.maximum };
    },
    dispose() {
      instance?.delete();
      instance = null;
    },
  };
}

/**
 * The module would wait for messages between threads, of which it has one: a wait without an end that holds its memory
 * for ever. It does not where the platform can't.
 */
function withoutWaiting<Result>(work: () => Result): Result {
  const waitAsync = Object.getOwnPropertyDescriptor(Atomics, 'waitAsync');
  Reflect.deleteProperty(Atomics, 'waitAsync');
  try {
    return work();
  } finally {
    if (waitAsync) Object.defineProperty(Atomics, 'waitAsync', waitAsync);
  }
}

/** @throws {@link EngineError} always. */
export function notStarted(cause: unknown): never {
  const why = cause instanceof Error ? cause.message : String(cause);
  throw new EngineError(
    'worker-lost',
    `The part that reads raw files could not be fetched or started (${why.replace(/\.+$/, '')}). Reload the page and try again.`,
    {},
    { cause },
  );
}

/** Number of the 6 × 6 pattern, which three passes over take half a minute of at 24 megapixels. */
const SIX_BY_SIX = 9;
const ONE_PASS = 2;
const BY_HOMOGENEITY = 3;

/**
 * `gamm` needs all six: with two it is passed over, and a curve laid on. A threshold of 0 keeps the white level from
 * being taken from the picture's own brightest cell.
 */
function settingsOf({ halfSize, multipliers }: DevelopWishes, filters: number): object {
  const scaling = multipliers
    ? { userMul: [multipliers[0], multipliers[1], multipliers[2], multipliers[1]] }
    : { noAutoScale: true };
  return {
    ...scaling,
    halfSize,
    outputBps: 16,
    outputColor: 0,
    useCameraMatrix: 0,
    useCameraWb: false,
    useAutoWb: false,
    gamm: [1, 1, 0, 0, 0, 0],
    noAutoBright: true,
    adjustMaximumThr: 0,
    highlight: 0,
    userQual: filters === SIX_BY_SIX ? ONE_PASS : BY_HOMOGENEITY,
    userFlip: 0,
  };
}

const LONGEST_MESSAGE_BYTES = 200;

/** The module throws C++ exceptions as a bare address: the sentence is read from its memory (libc++'s runtime_error). */
function spoken(error: unknown, memory: WebAssembly.Memory): unknown {
  const { excPtr } = (error ?? {}) as { excPtr?: unknown };
  if (typeof excPtr !== 'number') return error;
  const view = new DataView(memory.buffer);
  const at = excPtr + 8 <= view.byteLength ? view.getUint32(excPtr + 4, true) : 0;
  let text = '';
  for (let i = at; i < Math.min(view.byteLength, at + LONGEST_MESSAGE_BYTES); i++) {
    const letter = view.getUint8(i);
    if (letter === 0) break;
    text += String.fromCharCode(letter);
  }
  return new Error(text.startsWith('LibRaw: ') ? text : 'the decoder failed with code -1');
}
