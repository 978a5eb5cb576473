import { arrowHead } from '../arrow-head.ts';
import { type CastPlane, WORD_DISTANCE } from '../cast-plane.ts';
import { type Drawing, element, rounded, stroked, text } from './svg-page.ts';

/** Round the square, for the words. */
const ROOM = 2 * WORD_DISTANCE;
const FONT = 14;

/** The cast as an arrow from white in its plane, with the limit as a circle and the cells as a cloud. */
export function castDrawing(plane: CastPlane): Drawing {
  const { size, white, cast } = plane;
  const circle = ([cx, cy]: readonly [number, number], r: number, width: number) =>
    element('circle', { cx, cy, r, fill: 'none', stroke: '#000', 'stroke-width': width });
  const arrow = `M${rounded(white[0])},${rounded(white[1])}L${rounded(cast[0])},${rounded(cast[1])}${arrowHead(white, cast, 10)}`;
  const body = element(
    'g',
    { transform: `translate(${ROOM} ${ROOM})` },
    [
      element('clipPath', { id: 'square' }, element('rect', { width: size, height: size })),
      element('rect', { width: size, height: size, fill: 'none', stroke: '#777' }),
      element(
        'g',
        { 'clip-path': 'url(#square)' },
        [
          stroked(plane.cloudPath, 2, { stroke: '#777', 'stroke-linecap': 'round' }),
          stroked(plane.planckianPath, 1),
          stroked(plane.daylightPath, 1, { 'stroke-dasharray': '5 4' }),
          circle(white, plane.toleranceRadius, 2),
          circle(cast, plane.castPlusMinusRadius, 1),
          stroked(arrow, 3),
        ].join('\n'),
      ),
      ...plane.words.map(({ text: words, at, angleDeg }) =>
        text(words, {
          transform: `translate(${rounded(at[0])} ${rounded(at[1])}) rotate(${angleDeg})`,
          ...{ y: FONT * 0.35, 'font-size': FONT, 'text-anchor': 'middle' },
        }),
      ),
    ].join('\n'),
  );
  return { width: size + 2 * ROOM, height: size + 2 * ROOM, body };
}
