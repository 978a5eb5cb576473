import type { ResponsePlot } from '../response-plot.ts';
import { type Drawing, element, rounded, stroked, text } from './svg-page.ts';

const FONT = 13;
/** How the curves differ, since no colour tells them apart. */
const DASHES = [null, '12 4', '2 4'];
const SRGB = { 'stroke-dasharray': '6 5' };

/** The words at a response: its axes, and each curve's name. */
export interface ResponseWords {
  readonly codes: string;
  readonly light: string;
  readonly curves: readonly string[];
  readonly srgb: string;
}

/** A camera's response over its codes, against sRGB's. */
export function responseDrawing(plot: ResponsePlot, words: ResponseWords): Drawing {
  const { left, right, top, foot } = plot;
  const middle = { 'font-size': FONT, 'text-anchor': 'middle' };
  const faint = { stroke: '#000', 'stroke-width': 0.5, 'stroke-opacity': 0.4 };
  const curve = (d: string, i: number) => stroked(d, 2.5, { 'stroke-dasharray': DASHES[i] ?? null });
  const body = [
    ...plot.stopTicks.map(
      ({ stops, at }) =>
        element('line', { x1: left, x2: right, y1: at, y2: at, ...faint }) +
        text(stops === 0 ? '0' : `−${-stops}`, {
          x: left - 8,
          y: at + FONT * 0.35,
          'font-size': FONT,
          'text-anchor': 'end',
        }),
    ),
    ...plot.codeTicks.map(
      ({ code, at }) =>
        element('line', { x1: at, x2: at, y1: top, y2: foot, ...faint }) +
        text(String(code), { x: at, y: foot + 18, ...middle }),
    ),
    text(words.codes, { x: (left + right) / 2, y: foot + 40, ...middle }),
    text(words.light, { transform: `translate(14 ${rounded((top + foot) / 2)}) rotate(-90)`, ...middle }),
    stroked(plot.srgbPath, 1.25, SRGB),
    ...plot.curves.map(({ path, beyondPath }, i) => curve(path, i) + stroked(beyondPath, 1)),
    ...plot.key.map(({ linePath, nameAt: [x, y] }, i) => {
      const name = words.curves[i];
      const line = name === undefined ? stroked(linePath, 1.25, SRGB) : curve(linePath, i);
      return line + text(name ?? words.srgb, { x, y: y + FONT * 0.35, 'font-size': FONT });
    }),
  ];
  return { width: plot.width, height: plot.height, body: body.filter((each) => each !== '').join('\n') };
}
