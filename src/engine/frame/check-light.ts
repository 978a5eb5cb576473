import { EngineError } from '../engine-error.ts';
import type { LinearFrame } from './linear-frame.ts';

/** Beyond it, and as far below black, sums of pixels and squares of them would leave what numbers hold. */
const MOST_LIGHT = 1e30;

/**
 * Every code of a frame has to stand for light that can be reckoned with, whatever curve or table the file came with.
 *
 * @throws {@link EngineError} `unreadable-file` where one does not.
 */
export function checkLight({ lightAtCode, fileCodes }: Pick<LinearFrame, 'lightAtCode' | 'fileCodes'>): void {
  for (const tables of fileCodes ? [lightAtCode, fileCodes.lightAtCode] : [lightAtCode])
    for (const channel of ['red', 'green', 'blue'] as const) {
      const code = tables[channel].findIndex((light) => !(Math.abs(light) <= MOST_LIGHT));
      if (code < 0) continue;
      throw new EngineError(
        'unreadable-file',
        `The file’s colour coding gives its code ${code} in ${channel} no light that could be measured; a curve that ends was needed. Export it again, as sRGB.`,
        { channel, code },
      );
    }
}
