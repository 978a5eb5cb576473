/** What every move carries beside its own lengths. */
interface MoveOutcome {
  /** By how much this move alone narrows the spread, in stops (negative: widens it); `null` where that can't be known. */
  readonly bringsEv: number | null;
  /** Direction, degrees clockwise from "to the right", where only the direction is known. */
  readonly toward: number | null;
  /** What to mind before doing it; `null` where there is nothing. */
  readonly caution: string | null;
}

/**
 * One thing to do at the set. Lamp 0 is the only lamp or the one at camera left, lamp 1 the one at camera
 * right, as the camera sees them. Lengths are in mm on the background plane or in widths of the frame.
 * Where only the direction is known all lengths are `null` and `toward` gives it. A `lamp-distance` whose
 * ratio is `null` means "farther away": the engine never advises to come closer without a figure.
 */
export type Move = MoveOutcome &
  (
    | {
        readonly kind: 'slide-lamp';
        readonly lamp: number;
        readonly rightMm: number | null;
        readonly downMm: number | null;
        readonly rightFrameWidths: number | null;
        readonly downFrameWidths: number | null;
      }
    | { readonly kind: 'lamp-distance'; readonly lamp: number; readonly ratio: number | null }
    | {
        readonly kind: 'turn-lamp';
        readonly lamp: number;
        readonly aimRightMm: number | null;
        readonly aimDownMm: number | null;
        readonly aimRightFrameWidths: number | null;
        readonly aimDownFrameWidths: number | null;
      }
    | { readonly kind: 'balance-lamps'; readonly lamp: number; readonly stops: number }
    | {
        readonly kind: 'gel' | 'lamp-colour';
        readonly lamp: number;
        readonly miredShift: number;
        readonly duvShift: number;
        /**
         * What then is left between the lights, in mired; `null` where that can't be known. A Reading always says it;
         * whoever tells of moves made need not.
         */
        readonly leavesMired?: number | null;
      }
    | { readonly kind: 'white-balance'; readonly miredShift: number; readonly duvShift: number }
    | { readonly kind: 'add-diffusion' }
    | { readonly kind: 'block-stray'; readonly fromDeg: number | null }
    | {
        readonly kind: 'frame-tighter';
        readonly left: number;
        readonly top: number;
        readonly right: number;
        readonly bottom: number;
      }
    | { readonly kind: 'expose'; readonly stops: number }
  );
