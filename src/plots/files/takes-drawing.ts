import type { TakeMark, TakesLine } from '../takes-line.ts';
import { type Drawing, element, stroked, text } from './svg-page.ts';

const FONT = 13;
/** From this stride on every mark has room for its figure. */
const ROOM_FOR_FIGURE = 44;

/** The words at the line of takes. */
export interface TakesWords {
  readonly axis: string;
  readonly limit: string;
  readonly next: string;
  readonly tickOf: (value: number) => string;
  /** Each take's figure. */
  readonly figures: readonly string[];
}

/** The takes as one line over the band of their tolerance, what was foretold hollow beside what came. */
export function takesDrawing(line: TakesLine, words: TakesWords): Drawing {
  const { left, right, foot, limitAt, marks, stride } = line;
  const across = (at: number, more: Record<string, string | number>) =>
    element('line', { x1: left, x2: right, y1: at, y2: at, stroke: '#000', ...more });
  const level = FONT * 0.35;
  const hasRoom = stride >= ROOM_FOR_FIGURE;
  const foretold = ({ at: [x, y], barPath }: TakeMark, i: number) => {
    const isToCome = i === marks.length;
    const aside = isToCome ? 0 : -Math.min(12, stride / 4);
    const mark =
      stroked(barPath, 1.25) +
      element('circle', { cx: x, cy: y, r: 5, fill: '#fff', stroke: '#000', 'stroke-width': 1.5 });
    const name = isToCome
      ? text(words.next, { x, y: foot + 20, 'font-size': FONT, 'text-anchor': 'middle' })
      : '';
    return element('g', { transform: `translate(${aside} 0)` }, mark) + name;
  };
  const body = [
    element('rect', {
      x: left,
      y: limitAt,
      width: right - left,
      height: foot - limitAt,
      fill: '#000',
      'fill-opacity': 0.12,
    }),
    ...line.ticks.map(
      ({ value, at }) =>
        across(at, { 'stroke-width': 0.5, 'stroke-opacity': 0.4 }) +
        text(words.tickOf(value), { x: left - 8, y: at + level, 'font-size': FONT, 'text-anchor': 'end' }),
    ),
    across(limitAt, { 'stroke-width': 2 }),
    text(words.limit, { x: right + 8, y: limitAt + level, 'font-size': FONT }),
    text(words.axis, { x: 0, y: FONT, 'font-size': FONT }),
    stroked(line.path, 2),
    ...line.predictions.map((mark, i) => (mark === null ? '' : foretold(mark, i))),
    ...marks.map(
      ({ at: [x, y], barPath, top }, i) =>
        stroked(barPath, 1) +
        element('circle', { cx: x, cy: y, r: 4 }) +
        (hasRoom
          ? text(words.figures[i]!, { x: x + 8, y: top - 4, 'font-size': FONT }) +
            text(String(i + 1), { x, y: foot + 20, 'font-size': FONT, 'text-anchor': 'middle' })
          : ''),
    ),
  ];
  return { width: line.width, height: line.height, body: body.filter((each) => each !== '').join('\n') };
}
