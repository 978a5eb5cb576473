import type { SectionPlot } from '../section-plot.ts';
import { type Drawing, element, stroked, text } from './svg-page.ts';

const LEFT = 44;
const GAP = 34;

/** A section with what stands above it. */
export interface NamedSection {
  readonly plot: SectionPlot;
  readonly name: string;
  readonly figureOf: (ev: number) => string;
}

/** Cross-sections under each other, each with its light upwards, whichever way across the frame it runs. */
export function sectionDrawing(sections: readonly NamedSection[]): Drawing {
  let top = 0;
  let width = 0;
  const body = sections.map(({ plot, name, figureOf }) => {
    const { axis, length, depth, path, direction, toleranceAt, fontSize } = plot;
    const level = (at: number, more: Record<string, string | number>) =>
      element('line', { x1: 0, x2: length, y1: at, y2: at, stroke: '#000', ...more });
    const drawn = [
      text(name, { x: 0, y: fontSize, 'font-size': fontSize, 'font-weight': 700 }),
      element(
        'g',
        { transform: `translate(0 ${fontSize * 1.6})` },
        [
          ...axis.ticks.map(
            ({ ev, at }) =>
              level(at, { 'stroke-width': 0.5, 'stroke-opacity': 0.4 }) +
              text(figureOf(ev), {
                x: -8,
                y: at + fontSize * 0.36,
                'font-size': fontSize,
                'text-anchor': 'end',
              }),
          ),
          ...toleranceAt.map((at) => level(at, { 'stroke-width': 2, 'stroke-dasharray': '1 3' })),
          // what runs down the frame is laid on its side
          stroked(path, 2, direction === 'down' ? { transform: 'matrix(0 1 1 0 0 0)' } : {}),
          element('rect', {
            width: length,
            height: depth,
            fill: 'none',
            stroke: '#000',
            'stroke-width': 0.5,
          }),
        ].join('\n'),
      ),
    ];
    const placed = element('g', { transform: `translate(${LEFT} ${top})` }, drawn.join('\n'));
    top += fontSize * 1.6 + depth + GAP;
    width = Math.max(width, LEFT + length);
    return placed;
  });
  return { width, height: Math.max(0, top - GAP), body: body.join('\n') };
}
