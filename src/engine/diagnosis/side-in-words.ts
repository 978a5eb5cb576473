const SIDES = ['right', 'bottom right', 'bottom', 'bottom left', 'left', 'top left', 'top', 'top right'];

/**
 * The side of the frame that an angle points at, in eight directions: "right", "top left", "bottom".
 * Degrees clockwise from "to the right".
 */
export function sideInWords(angleDeg: number): string {
  const eighth = Math.round(angleDeg / 45);
  return SIDES[((eighth % 8) + 8) % 8]!;
}
