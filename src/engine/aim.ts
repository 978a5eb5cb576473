/** What the background is to become, and so what its light is judged against. */
export type Aim =
  | { readonly kind: 'even' }
  /** Paper white all over. */
  | {
      readonly kind: 'clean-white';
      /** The code value, 0 to 255 of the file's coding, from which on it counts as paper white; `null`: where it clips. */
      readonly whiteCode: number | null;
      /** How far the hottest may lie over paper white once the darkest reaches it, in stops. */
      readonly mostOverEv: number;
    }
  /** A ramp on purpose: straight in stops, so many over the region's corners. */
  | {
      readonly kind: 'ramp';
      /** Towards its brighter side: degrees clockwise from "to the right". */
      readonly angleDeg: number;
      readonly ev: number;
    };

/** What a background is to be where nobody says otherwise. */
export const EVEN: Aim = { kind: 'even' };
