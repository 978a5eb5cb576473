import type { OpenedFrame } from '../engine/preview-correction.ts';

/** Frames in small: more of them than this would take up memory for nothing. */
const KEPT = 4;

/** Keeps the frames that were opened last, so that going back to one does not decode it again. */
export class LastOpened {
  private readonly kept = new Map<number, OpenedFrame>();

  async open(id: number, decode: () => Promise<OpenedFrame>): Promise<OpenedFrame> {
    const opened = this.kept.get(id) ?? (await decode());
    this.kept.delete(id);
    this.kept.set(id, opened); // the last one again
    for (const oldest of [...this.kept.keys()].slice(0, -KEPT)) this.kept.delete(oldest);
    return opened;
  }

  forget(id: number): void {
    this.kept.delete(id);
  }

  forgetAll(): void {
    this.kept.clear();
  }
}
