import type { PlotLine, PlotPoint } from './plot-line.ts';

/** A rectangle turned about its middle; the angle in degrees clockwise, as SVG turns. */
export interface OrientedBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly angleDeg: number;
}

export function cornersOf({ x, y, width, height, angleDeg }: OrientedBox): readonly PlotPoint[] {
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const corner = (across: number, down: number): PlotPoint => [
    x + (across * width * cos - down * height * sin) / 2,
    y + (across * width * sin + down * height * cos) / 2,
  ];
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}

/** Whether two boxes overlap, by the separating-axis theorem; touching is not overlapping. */
export function boxesOverlap(a: OrientedBox, b: OrientedBox): boolean {
  const reach = (a.width + a.height + b.width + b.height) / 2;
  if (Math.abs(a.x - b.x) > reach || Math.abs(a.y - b.y) > reach) return false; // most are far away
  const cornersA = cornersOf(a);
  const cornersB = cornersOf(b);
  for (const angle of [a.angleDeg, a.angleDeg + 90, b.angleDeg, b.angleDeg + 90]) {
    const cos = Math.cos((angle * Math.PI) / 180);
    const sin = Math.sin((angle * Math.PI) / 180);
    const along = (corners: readonly PlotPoint[]) => corners.map(([x, y]) => x * cos + y * sin);
    const spanA = along(cornersA);
    const spanB = along(cornersB);
    if (Math.max(...spanA) <= Math.min(...spanB) || Math.max(...spanB) <= Math.min(...spanA)) return false;
  }
  return true;
}

/** Whether any piece of the line runs through the box, by the separating-axis theorem; touching is not running through. */
export function boxCrossedBy({ x, y, width, height, angleDeg }: OrientedBox, line: PlotLine): boolean {
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const across = width / 2;
  const down = height / 2;
  let fromAcross = Number.NaN;
  let fromDown = Number.NaN;
  for (const [px, py] of line) {
    const toAcross = (px - x) * cos + (py - y) * sin;
    const toDown = (py - y) * cos - (px - x) * sin;
    const isBeside =
      !(Math.min(fromAcross, toAcross) < across && Math.max(fromAcross, toAcross) > -across) ||
      !(Math.min(fromDown, toDown) < down && Math.max(fromDown, toDown) > -down);
    if (!isBeside) {
      const runAcross = toAcross - fromAcross;
      const runDown = toDown - fromDown;
      const off = Math.abs(fromAcross * runDown - fromDown * runAcross);
      if (off < across * Math.abs(runDown) + down * Math.abs(runAcross)) return true;
    }
    fromAcross = toAcross;
    fromDown = toDown;
  }
  return false;
}
