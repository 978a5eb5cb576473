import type { SetSamples } from './set-samples.ts';

/** What a second frame of the same set shows that the blank one cannot tell. */
export type SecondFrameRole =
  /** The lights off, all else as it was: the room's light alone. */
  | { readonly kind: 'lamp-off' }
  /** The camera slid over the same light: the lens's falloff stays with the frame, the light with the background. */
  | { readonly kind: 'shifted'; readonly rightFrameWidths: number; readonly downFrameWidths: number }
  /** The lens stopped down by so many stops: mechanical vignetting goes, the natural fall stays. */
  | { readonly kind: 'stopped-down'; readonly stops: number };

/** A second frame as far as the fit of a set needs it. Structured-cloneable. */
export interface SecondFrame {
  readonly role: SecondFrameRole;
  readonly samples: SetSamples;
}
