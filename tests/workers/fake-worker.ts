import { expose } from 'comlink';
import type { EngineWorker } from '../../workers/engine-client.ts';
import { transferEngineErrors } from '../../workers/error-transfer.ts';

/** A worker's place taken by a message channel within Node: what crosses it is cloned as it would be. */
export interface FakeWorker extends EngineWorker {
  readonly terminated: boolean;
  /** Has the worker die, as a browser reports it. */
  die(event: Event): void;
}

export function fakeWorker(api: object): FakeWorker {
  transferEngineErrors();
  const { port1: page, port2: inside } = new MessageChannel();
  expose(api, inside);
  inside.start();
  page.start();
  const deaths = new EventTarget();
  let terminated = false;
  const target = (type: string) => (type === 'message' ? page : deaths);
  return {
    get terminated() {
      return terminated;
    },
    die: (event) => void deaths.dispatchEvent(event),
    postMessage: (message: unknown, transfer?: unknown) => {
      if (!terminated) page.postMessage(message, transfer as Transferable[]);
    },
    addEventListener: (type: string, listener: EventListenerOrEventListenerObject) =>
      target(type).addEventListener(type, listener),
    removeEventListener: (type: string, listener: EventListenerOrEventListenerObject) =>
      target(type).removeEventListener(type, listener),
    terminate() {
      terminated = true;
      page.close();
      inside.close();
    },
  } as FakeWorker;
}

/** A promise and its ends. */
export function openPromise<Value>() {
  let resolve: (value: Value) => void = () => {};
  let reject: (reason: unknown) => void = () => {};
  const promise = new Promise<Value>((yes, no) => {
    resolve = yes;
    reject = no;
  });
  return { promise, resolve, reject };
}
