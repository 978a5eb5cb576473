import { ticks as roundValues } from 'd3-array';
import { srgbDecode } from '../engine/colour/srgb-curve.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import { linePath } from './line-path.ts';
import { linearScale } from './linear-scale.ts';
import type { PlotPoint } from './plot-line.ts';

type ChannelName = 'red' | 'green' | 'blue';

/** One curve: of all channels that share it. */
export interface ResponseCurve {
  readonly channels: readonly ChannelName[];
  /** Between the codes that the frames tell of, and where it is drawn on beyond them. */
  readonly path: string;
  readonly beyondPath: string;
}

/** A piece of line with its name beside it. */
export interface KeyEntry {
  readonly linePath: string;
  readonly nameAt: PlotPoint;
}

/** A camera's response over its codes, stops of light upwards to white, against sRGB's. */
export interface ResponsePlot {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
  readonly srgbPath: string;
  readonly curves: readonly ResponseCurve[];
  /** One for each curve and the last for sRGB's, above the curves, where no light is. */
  readonly key: readonly KeyEntry[];
  /** What sRGB's curve would make of the first stop below the brightest code that the frames tell of. */
  readonly firstStopBySrgb: number;
  readonly codeTicks: readonly { readonly code: number; readonly at: number }[];
  readonly stopTicks: readonly { readonly stops: number; readonly at: number }[];
}

const MARGIN = { left: 52, right: 16, top: 12, bottom: 52 };
const CODE_TICKS = [0, 64, 128, 192, 255];
/** Darker light is hardly a picture's. */
const LOWEST_STOPS = -8;
const KEY = { left: 14, top: 18, line: 36, gap: 8, row: 20 };
/** Stops within which curves are drawn as one, where the ± is not larger. */
const SAME_STOPS = 0.005;
const CHANNELS: readonly ChannelName[] = ['red', 'green', 'blue'];

export function responsePlot(
  response: CameraResponse,
  { width, height }: { width: number; height: number },
): ResponsePlot {
  const [left, right] = [MARGIN.left, width - MARGIN.right];
  const [top, foot] = [MARGIN.top, height - MARGIN.bottom];
  const across = linearScale([0, 255], [left, right]);
  const up = linearScale([LOWEST_STOPS, 0], [foot, top]);
  const pathOf = (stops: readonly number[], from: number, to: number) =>
    linePath([pointsOf(stops, from, to).map(([code, value]): PlotPoint => [across(code), up(value)])]);
  const srgb = Array.from({ length: 256 }, (_, code) => Math.log2(srgbDecode(Math.max(code, 0.25) / 255)));
  const groups = sharing(response);
  return {
    ...{ width, height, left, right, top, foot },
    srgbPath: pathOf(srgb, 0, 255),
    curves: groups.map((channels) => {
      const name = channels[0]!;
      const stops = response.channels[name];
      const [low, high] = response.madeFrom.codes?.[name] ?? [0, 255];
      return {
        channels,
        path: pathOf(stops, low, high),
        beyondPath: pathOf(stops, 0, low) + pathOf(stops, high, 255),
      };
    }),
    key: Array.from({ length: groups.length + 1 }, (_, i) => keyEntry(left, top, i)),
    firstStopBySrgb: firstStop(response, srgb),
    codeTicks: CODE_TICKS.map((code) => ({ code, at: across(code) })),
    stopTicks: roundValues(LOWEST_STOPS, 0, 4).map((stops) => ({ stops, at: up(stops) })),
  };
}

function keyEntry(left: number, top: number, i: number): KeyEntry {
  const [x, y] = [left + KEY.left, top + KEY.top + i * KEY.row];
  const end = x + KEY.line;
  return {
    linePath: linePath([
      [
        [x, y],
        [end, y],
      ],
    ]),
    nameAt: [end + KEY.gap, y],
  };
}

/** Codes from one to another with their stops, cut off at the foot of the plot. */
function pointsOf(stops: readonly number[], from: number, to: number): PlotPoint[] {
  const points: PlotPoint[] = [];
  for (let code = from; code <= to; code++)
    if (stops[code]! >= LOWEST_STOPS) points.push([code, stops[code]!]);
  return points;
}

function sharing({ channels, plusMinusEv, madeFrom }: CameraResponse): ChannelName[][] {
  const same = Math.max(SAME_STOPS, plusMinusEv);
  const [low, high] = madeFrom.codes?.green ?? [1, 255];
  const groups: ChannelName[][] = [];
  for (const name of CHANNELS) {
    const own = groups.find(([first]) =>
      channels[first!].every(
        (stops, code) => code < low || code > high || Math.abs(stops - channels[name][code]!) < same,
      ),
    );
    if (own) own.push(name);
    else groups.push([name]);
  }
  return groups;
}

function firstStop({ channels: { green }, madeFrom }: CameraResponse, srgb: readonly number[]): number {
  const high = madeFrom.codes?.green[1] ?? 255;
  const below = green.findLastIndex((stops) => stops <= green[high]! - 1);
  if (below < 0) return Number.NaN;
  const share = (green[high]! - 1 - green[below]!) / (green[below + 1]! - green[below]!);
  return srgb[high]! - (srgb[below]! + share * (srgb[below + 1]! - srgb[below]!));
}
