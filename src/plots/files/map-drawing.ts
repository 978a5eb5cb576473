import type { DrawingSize, MapPlot } from '../map-plot.ts';
import { base64, picturePng } from './picture-png.ts';
import { type Drawing, element, rounded, stroked, text } from './svg-page.ts';

/** Arm of the cross at the hottest spot. */
const ARM = 7;

/** A map: its picture in greys or tints, under its contours and their labels. */
export function mapDrawing(plot: MapPlot, { width, height, fontSize }: DrawingSize): Drawing {
  const { contours, hottest } = plot;
  const hatching = (id: string, size: number, d: string, stroke: number) =>
    element('pattern', { id, width: size, height: size, patternUnits: 'userSpaceOnUse' }, stroked(d, stroke));
  const clear = { 'clip-path': 'url(#clear)' };
  const body = [
    element(
      'defs',
      {},
      hatching('hatching', 8, 'M0,8L8,0', 1) +
        hatching('lower', 10, 'M0,0L10,10', 0.5) +
        element('clipPath', { id: 'clear' }, element('path', { d: plot.clearPath, 'clip-rule': 'evenodd' })),
    ),
    element('image', {
      ...{ width, height, preserveAspectRatio: 'none' },
      href: `data:image/png;base64,${base64(picturePng(plot.picture))}`,
    }),
    element('path', { d: plot.lowerPath ?? '', fill: 'url(#lower)', ...clear }),
    element('path', { d: plot.hatchedPath, fill: 'url(#hatching)', ...clear }),
    ...contours.lines.map(({ path, isTolerance }) => stroked(path, isTolerance ? 3 : 1)),
    ...contours.labels.map(({ x, y, angleDeg, text: words, isTolerance }) =>
      text(words, {
        transform: `translate(${rounded(x)} ${rounded(y)}) rotate(${rounded(angleDeg)})`,
        y: fontSize * 0.36,
        'font-size': fontSize,
        'text-anchor': 'middle',
        'font-weight': isTolerance ? 700 : 400,
      }),
    ),
    element(
      'g',
      clear,
      [
        stroked(plot.cropPath, 1.5, { 'stroke-dasharray': '7 5' }),
        stroked(plot.gradientPath, 2, { 'stroke-dasharray': '1 4', 'stroke-linecap': 'round' }),
        stroked(plot.gradientHeadPath, 2),
        hottest === null
          ? ''
          : stroked(
              `M${rounded(hottest[0] - ARM)},${rounded(hottest[1])}h${2 * ARM}m${-ARM},${-ARM}v${2 * ARM}`,
              1,
            ),
      ].join('') || ' ',
    ),
    element('rect', { width, height, fill: 'none', stroke: '#000', 'stroke-width': 1 }),
  ];
  return { width, height, body: body.filter((each) => each !== '').join('\n') };
}
