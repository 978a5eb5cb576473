import { expect } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';

/** The error that decoding these bytes ends in; fails where it ends in a picture or in any other error. */
export async function rejectionOf(bytes: Uint8Array): Promise<EngineError> {
  const outcome = await decodeImage(bytes, nodePlatform).catch((error: unknown) => error);
  expect(outcome).toBeInstanceOf(EngineError);
  return outcome as EngineError;
}
