/** The frame of a sheet or panel that reaches into the picture at one side. */
export interface DarkRim {
  readonly side: 'left' | 'right' | 'top' | 'bottom';
  /** How far it reaches in, as a share of the frame's width (left, right) or height (top, bottom). */
  readonly reach: number;
  /** Its light against the background's beside it, 0 to 1. */
  readonly level: number;
  /** Over how much of that width or height its edge goes from dark to light. */
  readonly soft: number;
}

/** Share of the light at a place of the unslid frame, 0 to 1 across. */
export function rimShare(rim: DarkRim): (x: number, y: number) => number {
  return (x, y) => {
    const inwards = { left: x, right: 1 - x, top: y, bottom: 1 - y }[rim.side];
    const lit = Math.min(1, Math.max(0, (inwards - rim.reach) / rim.soft + 0.5));
    return rim.level + (1 - rim.level) * lit * lit * (3 - 2 * lit);
  };
}
