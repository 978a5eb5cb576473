import { linePath } from './line-path.ts';
import { cornersOf, type OrientedBox } from './oriented-box.ts';

/**
 * SVG path data of a drawing's whole area without its labels, to be filled by the even-odd rule: what is clipped to it
 * strikes no label through. Labels that overlap would not be left out; they never do.
 */
export function clearOfLabels(
  labels: readonly OrientedBox[],
  { width, height }: { width: number; height: number },
): string {
  return `M0,0H${width}V${height}H0Z${labels.map((label) => `${linePath([cornersOf(label)])}Z`).join('')}`;
}
