import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { SRGB } from '../colour/srgb-space.ts';
import { type CellLayout, cellLayout } from '../grid/cell-layout.ts';
import type { RgbaPicture } from '../intake/platform.ts';
import { regionGeometry } from '../maps/cell-plane.ts';
import { type FigureTaker, figureTaker } from '../maps/frame-figures.ts';
import { tFactor95 } from '../numeric/small-sample.ts';
import { WHOLE_FRAME } from '../reading.ts';
import { liveCells } from './live-cells.ts';
import { SteadyLight } from './steady-light.ts';
import { trendEvPerS } from './trend.ts';

/** What a feed shows now, averaged for as long as the light stands still. */
export interface LiveReading {
  readonly columns: number;
  readonly rows: number;
  readonly spreadEv: number;
  /** From pictures among themselves and the coding's step; `null` until there are enough. Not of an unknown curve. */
  readonly plusMinusEv: number | null;
  readonly tintDeltaUv: number;
  readonly castUPrime: number;
  readonly castVPrime: number;
  readonly castDeltaUv: number;
  readonly castMired: number | null;
  readonly castDuv: number | null;
  /** Smoothed cells in stops under the brightest, and their chromaticity; row-major. */
  readonly evMap: Float64Array;
  readonly uPrimeMap: Float64Array;
  readonly vPrimeMap: Float64Array;
  /** Pictures averaged. */
  readonly pictures: number;
  readonly isMoving: boolean;
  /** How fast the spread changes; `null` where it can't be told. */
  readonly trendEvPerS: number | null;
  /** Common change since averaging began, as automatic exposure and white balance make it; stops. */
  readonly levelDriftEv: number;
  readonly colourDriftEv: number;
  readonly clippedShare: number;
}

/** Parts that the pictures are left out in, one at a time, to see how far the spread depends on them. */
const PARTS = 5;
const LEAST_PICTURES = 10;
/** A spread without averaging is kept for so long, to see where it goes. */
const TREND_S = 1.5;
/** Half of a 95 % interval of an error that is even over one code. */
const STEP_SHARE = 1.96 / Math.sqrt(12);

/** Follows a feed, picture by picture; all of one size. */
export class LiveMeter {
  private layout: CellLayout | null = null;
  private steady!: SteadyLight;
  private figures!: FigureTaker;
  private size = '';
  private plusMinusEv: number | null = null;
  private since = 0;
  private latest: { atS: number; spreadEv: number }[] = [];

  /** @throws EngineError `too-small` for a feed of hardly any pixels. */
  add(picture: RgbaPicture, atS: number): LiveReading {
    const layout = this.layoutFor(picture);
    const { light, clippedShare } = liveCells(picture, layout);
    const now = this.figures.take(light).spreadEv;
    const change = this.steady.add(light);
    this.latest = [...this.latest.filter((one) => atS - one.atS <= TREND_S), { atS, spreadEv: now }];
    const { pictures } = this.steady;
    if (pictures < LEAST_PICTURES) this.plusMinusEv = null;
    else if (this.plusMinusEv === null || ++this.since >= PARTS) {
      this.plusMinusEv = this.scatterEv();
      this.since = 0;
    }
    const { columns, rows } = layout;
    const mean = this.steady.mean();
    const taken = this.figures.take(mean);
    const { smoothed } = this.figures;
    const top = smoothed.luminance[taken.brightestCell]!;
    const orNull = (value: number) => (Number.isFinite(value) ? value : null);
    return {
      ...{ columns, rows, spreadEv: taken.spreadEv },
      plusMinusEv:
        this.plusMinusEv === null
          ? null
          : Math.hypot(this.plusMinusEv, (STEP_SHARE * codeStepEv(darkestLight(light.green))) / 2),
      tintDeltaUv: taken.tintSpread,
      ...{ castUPrime: taken.castUPrime, castVPrime: taken.castVPrime, castDeltaUv: taken.castDeltaUv },
      ...{ castMired: orNull(taken.castMired), castDuv: orNull(taken.castDuv) },
      evMap: smoothed.luminance.map((value) => Math.log2(value / top)),
      ...{ uPrimeMap: smoothed.uPrime.slice(), vPrimeMap: smoothed.vPrime.slice() },
      ...{ pictures, isMoving: change.isMoving, clippedShare },
      trendEvPerS: trendEvPerS(this.latest),
      ...{ levelDriftEv: change.levelEv, colourDriftEv: change.redOverBlueEv },
    };
  }

  /** Jackknife over parts of the time: half-width of a 95 % interval. Source: Efron and Tibshirani 1993, ch. 11 (from memory). */
  private scatterEv(): number {
    const without = Array.from(
      { length: PARTS },
      (_, part) => this.figures.take(this.steady.mean({ part, of: PARTS })).spreadEv,
    );
    const middle = without.reduce((sum, value) => sum + value, 0) / PARTS;
    const squares = without.reduce((sum, value) => sum + (value - middle) ** 2, 0);
    return tFactor95(PARTS - 1) * Math.sqrt(((PARTS - 1) / PARTS) * squares);
  }

  private layoutFor({ widthPx, heightPx }: RgbaPicture): CellLayout {
    const size = `${widthPx} × ${heightPx}`;
    if (this.layout !== null && this.size === size) return this.layout;
    const layout = cellLayout(widthPx, heightPx, WHOLE_FRAME);
    const { columns, rows } = layout;
    this.size = size;
    this.layout = layout;
    this.steady = new SteadyLight(columns, rows);
    const geometry = regionGeometry(layout.region, columns, rows, widthPx / columns, heightPx / rows);
    this.figures = figureTaker(
      columns,
      rows,
      geometry,
      rgbToXyzMatrix(SRGB.primaries, SRGB.white),
      new Float64Array(columns * rows),
    );
    this.latest = [];
    this.plusMinusEv = null;
    return layout;
  }
}

function darkestLight(light: Float64Array): number {
  return light.reduce((least, value) => Math.min(least, value), 1);
}

/** What one 8-bit code under sRGB's curve makes at a light, in stops; the curve's slope there. */
function codeStepEv(light: number): number {
  const encoded = light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055;
  const slope = encoded <= 0.04045 ? 1 / 12.92 : (2.4 / 1.055) * ((encoded + 0.055) / 1.055) ** 1.4;
  return slope / 255 / (light * Math.LN2);
}
