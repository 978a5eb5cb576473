import type { FrameFacts } from '../engine/reading.ts';
import { ReadFailure } from '../sources/read-failure.ts';
import { areOneFile, haveOneShape } from '../takes/second-frames.ts';

/**
 * Refuses a second frame that can't be laid over its blank one.
 * @throws {@link ReadFailure} `unsupported-file` where it is of another shape, or the blank frame's own file.
 */
export function refuseAnotherView(second: FrameFacts, blank: FrameFacts): void {
  if (areOneFile(second, blank))
    throw new ReadFailure(
      'unsupported-file',
      `${second.name} is the blank frame itself. A second frame is a picture of its own: choose that one.`,
      second.name,
    );
  if (!haveOneShape(second, blank))
    throw new ReadFailure(
      'unsupported-file',
      `${second.name} has ${size(second)} px, the blank frame ${size(blank)} px: the two differ in shape. Shoot the second frame with the camera held as for the first, and crop neither.`,
      second.name,
    );
}

const size = ({ widthPx, heightPx }: FrameFacts) => `${widthPx} × ${heightPx}`;
