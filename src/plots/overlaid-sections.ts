import type { CorrectionPreview } from '../engine/preview-correction.ts';
import type { FramePoint } from '../engine/reading.ts';
import { linePath } from './line-path.ts';
import { linearScale } from './linear-scale.ts';
import type { PlotPoint } from './plot-line.ts';

/** The light along one line of a frame as shot and as corrected, over one scale of stops. */
export interface OverlaidSection {
  readonly before: string;
  readonly after: string;
  /** Position of the spot along the line. */
  readonly spotAt: number;
}

export interface OverlaidSections {
  readonly across: OverlaidSection;
  readonly down: OverlaidSection;
  /** Levels in stops against white, with their positions from the top. */
  readonly ticks: readonly { readonly ev: number; readonly at: number }[];
}

export interface SectionSize {
  readonly width: number;
  readonly height: number;
  readonly fontSize: number;
}

/** What the scale shows at least and at most, in stops. */
const LEAST_SHOWN = 0.4;
const MOST_SHOWN = 3;
/** Of what varies along the lines, so that curves keep clear of the edges. */
const MARGIN = 1.15;
const TENTHS_APART = [1, 2, 5, 10, 20];

type Light = Pick<CorrectionPreview, 'widthPx' | 'heightPx' | 'before' | 'after' | 'backgroundAt'>;

/**
 * Both sections through a spot, before and after, to one scale of stops. The scale is that of the background where it
 * is known; what lies farther down, as a dark subject does, runs along the lower edge.
 */
export function overlaidSections(preview: Light, spot: FramePoint, size: SectionSize): OverlaidSections {
  const { widthPx, heightPx } = preview;
  const column = Math.min(widthPx - 1, Math.floor(spot.x * widthPx));
  const row = Math.min(heightPx - 1, Math.floor(spot.y * heightPx));
  const across = Array.from({ length: widthPx }, (_, x) => row * widthPx + x);
  const down = Array.from({ length: heightPx }, (_, y) => y * widthPx + column);
  const { top, bottom } = shownStops(preview, [...across, ...down]);
  const unbounded = linearScale([top, bottom], [0, size.height]);
  const scale = (ev: number) => Math.min(size.height, Math.max(0, unbounded(ev)));
  const section = (pixels: readonly number[], spotPixel: number): OverlaidSection => {
    const place = linearScale([0, pixels.length], [0, size.width]);
    const along = (stops: Float32Array) =>
      linePath([pixels.map((at, i): PlotPoint => [place(i + 0.5), scale(stops[at]!)])]);
    return {
      before: along(preview.before.stops),
      after: along(preview.after.stops),
      spotAt: place(spotPixel + 0.5),
    };
  };
  return {
    across: section(across, column),
    down: section(down, row),
    ticks: levels(top, bottom, size).map((ev) => ({ ev, at: scale(ev) })),
  };
}

function shownStops({ before, after, backgroundAt }: Light, pixels: readonly number[]) {
  const background = pixels.filter((at) => backgroundAt === null || backgroundAt[at] === 1);
  const all = (background.length > 0 ? background : pixels).flatMap((at) => [
    before.stops[at]!,
    after.stops[at]!,
  ]);
  const [lowest, highest] = all.reduce(
    ([low, high], ev) => [Math.min(low, ev), Math.max(high, ev)],
    [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
  );
  const shown = Math.min(Math.max((highest - lowest) * MARGIN, LEAST_SHOWN), MOST_SHOWN);
  const spare = (shown - Math.min(highest - lowest, shown)) / 2;
  const top = highest + spare;
  return { top, bottom: top - shown };
}

/** Whole tenths, far enough apart for figures under one another. */
function levels(top: number, bottom: number, { height, fontSize }: SectionSize): number[] {
  const perTenth = height / ((top - bottom) * 10);
  const step = TENTHS_APART.find((tenths) => tenths * perTenth >= 1.8 * fontSize) ?? 50;
  const found: number[] = [];
  for (let tenth = Math.floor((top * 10) / step) * step; tenth >= bottom * 10; tenth -= step)
    found.push(tenth === 0 ? 0 : tenth / 10);
  return found;
}
