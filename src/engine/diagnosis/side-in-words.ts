const SIDES = ['right', 'lower right', 'bottom', 'lower left', 'left', 'upper left', 'top', 'upper right'];

/**
 * The side of the frame that an angle points at, in eight directions: "right", "upper left", "bottom".
 * Degrees clockwise from "to the right".
 */
export function sideInWords(angleDeg: number): string {
  const eighth = Math.round(angleDeg / 45);
  return SIDES[((eighth % 8) + 8) % 8]!;
}
