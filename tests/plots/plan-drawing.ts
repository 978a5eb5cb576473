import type { PlanInput } from '../../src/plots/plan-input.ts';
import { NOTE_FONT_SIZE } from '../../src/plots/plan-notes.ts';
import { type PlanPage, planPage } from '../../src/plots/plan-page.ts';
import type { PlanSide } from '../../src/plots/plan-projection.ts';
import type { PlanSpread } from '../../src/plots/plan-spread.ts';
import { textWidth } from '../../src/plots/text-width.ts';
import { planNotes } from '../../src/screen/words/plan-words.ts';

/** The points that a path names by absolute coordinates. */
export function points(path: string): [number, number][] {
  return [...path.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map((found) => [
    Number(found[1]),
    Number(found[2]),
  ]);
}

export function pageOf(given: PlanInput, side: PlanSide, width?: number): PlanPage {
  return planPage(given, side, (view) => planNotes(view, given, 'cm'), width);
}

export type Box = { left: number; right: number; top: number; bottom: number };

/** What a note covers at most. */
export function boxOf({ lines, textAt, anchor }: PlanPage['notes'][number]): Box {
  const width = Math.max(...lines.map((line) => textWidth(line, NOTE_FONT_SIZE)));
  const left = anchor === 'start' ? textAt[0] : textAt[0] - width;
  return { left, right: left + width, top: textAt[1] - 12, bottom: textAt[1] + (lines.length - 1) * 17 + 3 };
}

export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

export function runsThrough(path: string, box: Box): boolean {
  const [from, to] = points(path);
  for (let t = 0; t <= 1; t += 0.01) {
    const x = from![0] + (to![0] - from![0]) * t;
    const y = from![1] + (to![1] - from![1]) * t;
    if (x > box.left + 1 && x < box.right - 1 && y > box.top + 1 && y < box.bottom - 1) return true;
  }
  return false;
}

/** A page as a picture of its own, for the stored ones. */
export function picture({ view, width, height, drawnAt, notes }: PlanPage): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height.toFixed(1)}" fill="none" stroke="black" font-size="14">`,
    '<title>A plan of the set</title>',
    ...notes.map(({ leaderPath }) => `<path d="${leaderPath}" opacity="0.4"/>`),
    `<g transform="translate(${drawnAt.map((each) => each.toFixed(1)).join(' ')})">`,
    ...view.lights.flatMap(({ spread }) => (spread === null ? [] : [ellipse(spread)])),
    `<path d="${view.lights.map(({ somewherePath }) => somewherePath).join('')}${view.beyondFramePath}" stroke-dasharray="2 4"/>`,
    `<path d="${view.lights.map(({ axisPath }) => axisPath).join('')}${view.sightPath}${view.brighter?.path ?? ''}${view.spill?.path ?? ''}"/>`,
    `<path d="${view.frame.path}${view.hottest.path}" stroke-width="4"/>`,
    ...view.lights.map(
      ({ path, isFound }) => `<path d="${path}"${isFound ? '' : ' stroke-dasharray="5 4"'}/>`,
    ),
    `<circle cx="${view.camera[0].toFixed(1)}" cy="${view.camera[1].toFixed(1)}" r="4"/>`,
    ...view.moves.map(({ path, headPath }) => `<path d="${path}${headPath}" stroke-width="2.5"/>`),
    `<path d="${view.breaksPath}"/>`,
    '</g>',
    ...notes.flatMap(({ lines, textAt, anchor }) =>
      lines.map(
        (line, i) =>
          `<text x="${textAt[0].toFixed(1)}" y="${(textAt[1] + i * 17).toFixed(1)}" text-anchor="${anchor}" fill="black" stroke="none">${line}</text>`,
      ),
    ),
    '</svg>',
    '',
  ].join('\n');
}

function ellipse({ centre: [x, y], radius, turnDeg }: PlanSpread): string {
  const [cx, cy, rx, ry, turn] = [x, y, ...radius, turnDeg].map((each) => each.toFixed(1));
  return `<ellipse cx="${cx}" cy="${cy}" rx="${rx}" ry="${ry}" transform="rotate(${turn} ${cx} ${cy})" opacity="0.4"/>`;
}
