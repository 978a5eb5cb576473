import type {
  DevelopedPicture,
  DevelopWishes,
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

/** A raw file in the decoder, each call at once. */
export interface RawDecoder {
  readonly metadata: RawMetadata;
  mosaic(): RawMosaic | null;
  developed(wishes: DevelopWishes): DevelopedPicture;
}

const PAGE_BYTES = 65536;
/** What the module asks for at least and at most; it grows in between. */
const MEMORY: WebAssembly.MemoryDescriptor = {
  initial: (256 * 2 ** 20) / PAGE_BYTES,
  maximum: 2 ** 31 / PAGE_BYTES,
  shared: true,
};

/**
 * Starts the decoder and opens a file in it.
 *
 * @param options where the module finds its WebAssembly: `wasmBinary`, or `locateFile`.
 * @throws Error whose message ends in "code" and the decoder's own number.
 */
export async function openRawDecoder(
  makeLibraw: MakeLibraw,
  options: object,
  bytes: Uint8Array,
): Promise<RawDecoder> {
  const memory = new WebAssembly.Memory(MEMORY);
  const silent = () => {}; // what it prints comes as an error too
  const { LibRaw } = await makeLibraw({ ...options, wasmMemory: memory, print: silent, printErr: silent });
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
  const first = opened({});
  const metadata = call(() => first.metadata(true));
  let isFresh = true;
  return {
    metadata,
    mosaic() {
      const at = isFresh && instance ? instance : opened({});
      isFresh = false;
      return call(() => at.rawImageData()) ?? null;
    },
    developed(wishes) {
      isFresh = false;
      const at = opened(settingsOf(wishes));
      const picture = call(() => at.imageData());
      if (picture?.bits !== 16 || picture.data.length === 0)
        throw new Error('the decoder made no picture of this file: code -1');
      return { ...picture, maximum: call(() => at.metadata(true)).color_data.maximum };
    },
  };
}

/**
 * `gamm` needs all six: with two it is passed over, and a curve laid on. A threshold of 0 keeps the white level from
 * being taken from the picture's own brightest cell.
 */
function settingsOf({ halfSize, multipliers }: DevelopWishes): object {
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
    userQual: 3,
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
