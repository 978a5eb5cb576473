import type { Setup } from '../../../src/engine/setup.ts';
import type { ExifFacts } from '../exif-block.ts';
import type { StudioSet } from '../studio/studio-set.ts';

/** A fault built into a set, and the same set without it. */
export interface PlantedCause {
  /** A finding kind of the public contract. */
  readonly kind: string;
  readonly says: string;
  readonly cured: StudioSet;
}

/** One demonstration frame: what the page says of it, how it is photographed, and what is wrong with it. */
export interface Sample {
  readonly file: string;
  readonly title: string;
  readonly story: string;
  readonly setup: Setup;
  readonly set: StudioSet;
  readonly causes: readonly PlantedCause[];
  /** What a reading of the frame should come to, in words. */
  readonly shouldFind: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly electronsAtFull: number;
  readonly stored:
    | { readonly as: 'png'; readonly bits: 8 | 16 }
    | { readonly as: 'jpeg'; readonly quality: number; readonly chroma: '4:4:4' | '4:2:0' };
  readonly exif: ExifFacts;
  readonly seed: number;
  /** A frame with tumblers before the same light, to try the correction on. */
  readonly subjectFile?: string;
}
