/** What a frame of a shoot is told to be. */
export type FrameKind = 'blank' | 'subject' | 'lamp-off' | 'marker' | 'badly-exposed';

export interface ToldKind {
  readonly kind: FrameKind;
  /** 0 to 1. */
  readonly confidence: number;
}
