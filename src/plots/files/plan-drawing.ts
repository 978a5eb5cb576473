import { NOTE_FONT_SIZE, NOTE_LINE_HEIGHT } from '../plan-notes.ts';
import type { PlanPage } from '../plan-page.ts';
import type { PlanView } from '../plan-view.ts';
import { type Drawing, element, rounded, stroked, text } from './svg-page.ts';

const UNSURE = { 'stroke-dasharray': '5 4' };
const sure = (isKnown: boolean) => (isKnown ? {} : UNSURE);

/** The set from above or from the side, with its notes. */
export function planDrawing({ view, width, height, drawnAt, notes }: PlanPage): Drawing {
  const { lengths } = view;
  const set = [
    ...spreads(view),
    ...view.lights.map(({ somewherePath }) =>
      stroked(somewherePath, 1, { 'stroke-dasharray': '2 4', 'stroke-opacity': 0.5 }),
    ),
    ...view.lights.map(({ axisPath }, i) => stroked(axisPath, 1, sure(lengths.lampDistances[i]!.isKnown))),
    stroked(view.sightPath, 1, sure(lengths.cameraDistance.isKnown)),
    stroked(view.beyondFramePath, 1, UNSURE),
    stroked(view.frame.path, 5),
    stroked(view.hottest.path, 4),
    view.brighter === null ? '' : stroked(view.brighter.path, 1),
    view.spill === null ? '' : stroked(view.spill.path, 1.5),
    ...view.lights.map(({ path, isFound }) => stroked(path, 1.5, { fill: '#fff', ...sure(isFound) })),
    element('circle', { cx: view.camera[0], cy: view.camera[1], r: 4 }),
    stroked(view.breaksPath, 1.5),
    ...view.moves.map(
      ({ path, headPath, isMeasured }) => stroked(path, 2.5, sure(isMeasured)) + stroked(headPath, 2.5),
    ),
  ];
  const body = [
    ...notes.map(({ leaderPath }) => stroked(leaderPath, 0.75, { 'stroke-opacity': 0.5 })),
    element(
      'g',
      { transform: `translate(${rounded(drawnAt[0])} ${rounded(drawnAt[1])})` },
      set.filter((each) => each !== '').join('\n'),
    ),
    ...notes.flatMap(({ lines, textAt: [x, y], anchor }) =>
      lines.map((line, i) =>
        text(line, { x, y: y + i * NOTE_LINE_HEIGHT, 'font-size': NOTE_FONT_SIZE, 'text-anchor': anchor }),
      ),
    ),
  ];
  return { width, height, body: body.filter((each) => each !== '').join('\n') };
}

/** Where lights may well stand. */
function spreads({ lights, width, height }: PlanView): string[] {
  const found = lights.flatMap(({ spread }) => spread ?? []);
  if (found.length === 0) return [];
  const shade = (offset: number, opacity: number) =>
    element('stop', { offset, 'stop-color': '#000', 'stop-opacity': opacity });
  return [
    element(
      'defs',
      {},
      element('radialGradient', { id: 'soft' }, shade(0, 0.45) + shade(0.5, 0.25) + shade(1, 0.04)) +
        element('clipPath', { id: 'room' }, element('rect', { width, height })),
    ),
    ...found.map(({ centre: [cx, cy], radius: [rx, ry], turnDeg }) =>
      element(
        'g',
        { 'clip-path': 'url(#room)' },
        element('ellipse', {
          ...{ cx, cy, rx, ry, fill: 'url(#soft)', stroke: '#777' },
          transform: `rotate(${rounded(turnDeg)} ${rounded(cx)} ${rounded(cy)})`,
        }),
      ),
    ),
  ];
}
