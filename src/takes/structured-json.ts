/**
 * Structured data as JSON that anyone can read, and back exactly: what JSON has no way to say is an object with the one key
 * "$" that names it. `{ "$": "NaN" }`, `"-0"`, `"Infinity"`, `"-Infinity"`, `"undefined"`; `{ "$": "Float64Array", "length",
 * "base64" }` and its like hold little-endian elements; `"Blob"` has its type beside them; an object with a key "$" of its
 * own, a Map and a Set stand in `"is"` as lists.
 */
export type BlobBytes = ReadonlyMap<Blob, Uint8Array>;

const ARRAYS = {
  ...{ Int8Array, Uint8Array, Uint8ClampedArray, Int16Array, Uint16Array, Int32Array, Uint32Array },
  ...{ Float32Array, Float64Array, BigInt64Array, BigUint64Array },
};
type ArrayName = keyof typeof ARRAYS;
type AnyArray = InstanceType<(typeof ARRAYS)[ArrayName]>;

/** The blobs in it, whose bytes have to be read before it can be written. */
export function blobsIn(value: unknown, found = new Set<Blob>()): Set<Blob> {
  if (value instanceof Blob) found.add(value);
  else if (value instanceof Map || value instanceof Set) for (const each of value) blobsIn(each, found);
  else if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value))
    for (const each of Object.values(value)) blobsIn(each, found);
  return found;
}

/** @throws TypeError for what is no data: a function, a symbol, an object of a class of its own. */
export function toJson(value: unknown, blobs: BlobBytes = new Map()): unknown {
  const inside = (each: unknown) => toJson(each, blobs);
  switch (typeof value) {
    case 'string':
    case 'boolean':
      return value;
    case 'undefined':
      return tag('undefined');
    case 'bigint':
      return tag('bigint', { is: String(value) });
    case 'number':
      if (Object.is(value, -0)) return tag('-0');
      return Number.isFinite(value) ? value : tag(String(value));
    case 'object':
      break;
    default:
      throw new TypeError(`a ${typeof value} is no data`);
  }
  if (value === null) return null;
  if (Array.isArray(value)) return Array.from(value, inside);
  if (ArrayBuffer.isView(value)) return arrayToJson(value);
  if (value instanceof ArrayBuffer) return tag('ArrayBuffer', { base64: base64(new Uint8Array(value)) });
  if (value instanceof Date) return tag('Date', { is: toJson(value.getTime()) });
  if (value instanceof Map) return tag('Map', { is: [...value].map(inside) });
  if (value instanceof Set) return tag('Set', { is: [...value].map(inside) });
  if (value instanceof Blob) return tag('Blob', { type: value.type, base64: base64(blobs.get(value)!) });
  const prototype = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null)
    throw new TypeError(`a ${value.constructor?.name} is no plain data`);
  const entries = Object.entries(value).map(([key, each]) => [key, inside(each)] as const);
  return '$' in value ? tag('object', { is: entries }) : Object.fromEntries(entries);
}

/** What {@link toJson} wrote. @throws TypeError or RangeError for anything else. */
export function fromJson(json: unknown): unknown {
  if (typeof json !== 'object' || json === null) return json;
  if (Array.isArray(json)) return json.map(fromJson);
  if (!('$' in json))
    return Object.fromEntries(Object.entries(json).map(([key, each]) => [key, fromJson(each)]));
  const { $: name, is, type, base64: coded } = json as Record<string, unknown>;
  const pairs = () => (fromJson(list(is)) as unknown[]).map((pair) => pairOf(pair));
  switch (name) {
    case 'NaN':
    case 'Infinity':
    case '-Infinity':
    case '-0':
      return Number(name);
    case 'undefined':
      return undefined;
    case 'bigint':
      return BigInt(text(is));
    case 'Date':
      return new Date(fromJson(is) as number);
    case 'Map':
      return new Map(pairs());
    case 'Set':
      return new Set(fromJson(list(is)) as unknown[]);
    case 'object':
      return Object.fromEntries(pairs() as [string, unknown][]);
    case 'ArrayBuffer':
      return bytesOf(text(coded)).buffer;
    case 'Blob':
      return new Blob([bytesOf(text(coded))], { type: text(type) });
    default:
      return arrayFromJson(json as Record<string, unknown>);
  }
}

function tag(name: string, rest: object = {}): object {
  return { $: name, ...rest };
}

function list(value: unknown): unknown[] {
  if (!Array.isArray(value)) throw new TypeError('a list was expected');
  return value;
}

function pairOf(value: unknown): [unknown, unknown] {
  const pair = list(value);
  if (pair.length !== 2) throw new TypeError('a pair was expected');
  return pair as [unknown, unknown];
}

function text(value: unknown): string {
  if (typeof value !== 'string') throw new TypeError('text was expected');
  return value;
}

function arrayToJson(view: ArrayBufferView): object {
  const name = Object.prototype.toString.call(view).slice(8, -1);
  if (!Object.hasOwn(ARRAYS, name)) throw new TypeError(`a ${name} is no plain data`);
  const array = view as AnyArray;
  const bytes = littleEndian(
    new Uint8Array(array.buffer, array.byteOffset, array.byteLength),
    array.BYTES_PER_ELEMENT,
  );
  return tag(name, { length: array.length, base64: base64(bytes) });
}

function arrayFromJson({ $: name, length, base64: coded }: Record<string, unknown>): AnyArray {
  if (typeof name !== 'string' || !Object.hasOwn(ARRAYS, name))
    throw new TypeError(`nothing is called ${name}`);
  const Kind = ARRAYS[name as ArrayName];
  const bytes = bytesOf(text(coded));
  if (bytes.length !== (length as number) * Kind.BYTES_PER_ELEMENT)
    throw new RangeError(`${bytes.length} bytes are not ${length} elements of a ${name}`);
  return new Kind(littleEndian(bytes, Kind.BYTES_PER_ELEMENT).buffer as ArrayBuffer);
}

const IS_LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

/** The bytes with each element's lowest first, whatever machine this is; and back. */
function littleEndian(bytes: Uint8Array, size: number): Uint8Array {
  if (IS_LITTLE_ENDIAN || size === 1) return bytes;
  const turned = new Uint8Array(bytes.length);
  for (let i = 0; i < bytes.length; i++) turned[i] = bytes[i - (i % size) + (size - 1 - (i % size))]!;
  return turned;
}

/** As many bytes as can be handed to one call. */
const PIECE = 0x6000;

function base64(bytes: Uint8Array): string {
  let coded = '';
  for (let at = 0; at < bytes.length; at += PIECE)
    coded += btoa(String.fromCharCode(...bytes.subarray(at, at + PIECE))); // whole threes, so that pieces join
  return coded;
}

function bytesOf(coded: string): Uint8Array<ArrayBuffer> {
  const letters = atob(coded);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes;
}
