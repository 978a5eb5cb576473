import { type TransferHandler, transferHandlers } from 'comlink';
import { EngineError, type EngineErrorCode } from '../src/engine/engine-error.ts';

/** What crosses for an {@link EngineError}. */
interface WireEngineError {
  readonly engineError: { readonly code: EngineErrorCode; readonly message: string; readonly detail: object };
}

/**
 * Makes a thrown EngineError arrive as one, with code and detail; the wrapper alone keeps only name, message and stack.
 * To be called once on each side of the boundary, before the first call; calling it again changes nothing. Everything
 * else that is thrown travels as before.
 */
export function transferEngineErrors(): void {
  const plain = transferHandlers.get('throw') as TransferHandler<unknown, unknown> | undefined;
  if (!plain) throw new TypeError('the worker wrapper has no handler for thrown values to build on');
  if (installed.has(plain)) return;
  const handler: TransferHandler<unknown, unknown> = {
    canHandle: plain.canHandle,
    serialize(thrown) {
      const { value } = thrown as { value: unknown };
      if (!(value instanceof EngineError)) return plain.serialize(thrown);
      const { code, message } = value;
      const wire: WireEngineError = { engineError: { code, message, detail: cloneable(value.detail) } };
      return [wire, []];
    },
    deserialize(wire) {
      const { engineError } = wire as Partial<WireEngineError>;
      if (!engineError) return plain.deserialize(wire);
      const { code, message, detail } = engineError;
      throw new EngineError(code, message, detail as Record<string, unknown>);
    },
  };
  installed.add(handler);
  transferHandlers.set('throw', handler);
}

const installed = new WeakSet<object>();

/** Detail that can't be cloned would lose the whole error: without it the message still arrives. */
function cloneable(detail: object): object {
  try {
    return structuredClone(detail);
  } catch {
    return {};
  }
}
