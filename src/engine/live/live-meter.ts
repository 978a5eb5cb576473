import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { SRGB } from '../colour/srgb-space.ts';
import { CLIPPED_SHARE_BORNE } from '../diagnosis/clipped.ts';
import { doubtEv, type LightDoubt, NO_DOUBT } from '../frame/light-doubt.ts';
import { type CellLayout, cellLayout } from '../grid/cell-layout.ts';
import type { RgbaPicture } from '../intake/platform.ts';
import { cast } from '../maps/cast.ts';
import { regionGeometry } from '../maps/cell-plane.ts';
import { falloff } from '../maps/falloff.ts';
import { type FigureTaker, figureTaker } from '../maps/frame-figures.ts';
import { tFactor95 } from '../numeric/small-sample.ts';
import { WHOLE_FRAME } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { liveCells } from './live-cells.ts';
import type { LiveReading } from './live-reading.ts';
import { FEED_DELTA_UV, liveVerdict } from './live-verdict.ts';
import { SteadyLight } from './steady-light.ts';
import { trendEvPerS } from './trend.ts';

const TO_XYZ = rgbToXyzMatrix(SRGB.primaries, SRGB.white);
/** Warmth and green–magenta go by the same allowance as the distance; in their own units nothing is known. */
const FEED_CAST = { deltaUv: FEED_DELTA_UV, mired: Number.NaN, duv: Number.NaN };
const UNKNOWN_CURVE: LightDoubt = { ...NO_DOUBT, toneCurve: 'counted' };
/** Parts that the pictures are left out in, one at a time, to see how far the spread depends on them. */
const PARTS = 5;
const LEAST_PICTURES = 10;
/** Until pictures can be held against each other, so much is open. */
const UNSETTLED_EV = 1;
/** A spread without averaging is kept for so long, to see where it goes. */
const TREND_S = 1.5;
/** Of an error that is even over one code, half of a 95 % interval, halved: of two cells whose windows hold many codes. */
const STEP_SHARE = 1.96 / Math.sqrt(12) / 2;

/** Follows a feed, picture by picture; all of one size. */
export class LiveMeter {
  private layout: CellLayout | null = null;
  private steady!: SteadyLight;
  private figures!: FigureTaker;
  private size = '';
  private scatterEv: number | null = null;
  private since = 0;
  private latest: { atS: number; spreadEv: number }[] = [];

  /**
   * Takes the next picture in and judges what is seen so far.
   * @throws EngineError `too-small` for a feed of hardly any pixels.
   */
  add(picture: RgbaPicture, atS: number, tolerance: Tolerance): LiveReading {
    const layout = this.layoutFor(picture);
    const { light, clippedShare } = liveCells(picture, layout);
    const now = this.figures.take(light).spreadEv;
    const change = this.steady.add(light);
    this.latest = [...this.latest.filter((one) => atS - one.atS <= TREND_S), { atS, spreadEv: now }];
    this.renewScatter();
    const { columns, rows } = layout;
    const taken = this.figures.take(this.steady.mean());
    const { luminance } = this.figures.smoothed;
    const level = light.green.reduce((sum, value) => sum + value, 0) / light.green.length;
    const darkest = luminance[taken.darkestCell]! * level;
    const curveDoubtEv = doubtEv(
      UNKNOWN_CURVE,
      Math.min(1, luminance[taken.brightestCell]! * level),
      darkest,
    );
    const scatterEv =
      this.scatterEv === null ? null : Math.hypot(this.scatterEv, STEP_SHARE * codeStepEv(darkest));
    const measured = falloff({
      ...{ columns, rows, region: layout.region, luminance, cellWidth: 1 / columns, cellHeight: 1 / columns },
      ...{ brightestCell: taken.brightestCell, darkestCell: taken.darkestCell },
      isLowerBound: clippedShare > CLIPPED_SHARE_BORNE,
      plusMinusEv: Math.hypot(scatterEv ?? UNSETTLED_EV, curveDoubtEv),
      cellPlusMinusEv: scatterEv ?? UNSETTLED_EV,
    });
    const figures = {
      falloff: measured,
      clippedShare,
      tintDeltaUv: taken.tintSpread,
      castDeltaUv: taken.castDeltaUv,
    };
    return {
      ...{ columns, rows, falloff: measured, scatterEv, curveDoubtEv, tintDeltaUv: taken.tintSpread },
      cast: cast([taken.meanX, taken.meanY, taken.meanZ], TO_XYZ, FEED_CAST),
      verdict: liveVerdict(figures, scatterEv !== null, tolerance),
      ...{ pictures: this.steady.pictures, isMoving: change.isMoving, clippedShare },
      trendEvPerS: trendEvPerS(this.latest),
      ...{ levelDriftEv: change.levelEv, colourDriftEv: change.redOverBlueEv },
    };
  }

  /** Not at every picture: it takes as long as five of them. */
  private renewScatter(): void {
    if (this.steady.pictures < LEAST_PICTURES) this.scatterEv = null;
    else if (this.scatterEv === null || ++this.since >= PARTS) {
      this.scatterEv = this.jackknifeEv();
      this.since = 0;
    }
  }

  /** Jackknife over parts of the time: half-width of a 95 % interval. Source: Efron and Tibshirani 1993, ch. 11 (from memory). */
  private jackknifeEv(): number {
    const without = Array.from(
      { length: PARTS },
      (_, part) => this.figures.take(this.steady.meanWithout(part, PARTS)).spreadEv,
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
    this.figures = figureTaker(columns, rows, geometry, TO_XYZ, new Float64Array(columns * rows));
    this.latest = [];
    this.scatterEv = null;
    return layout;
  }
}

/** What one 8-bit code under sRGB's curve makes at a light, in stops; the curve's slope there. */
function codeStepEv(light: number): number {
  const encoded = light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055;
  const slope = encoded <= 0.04045 ? 1 / 12.92 : (2.4 / 1.055) * ((encoded + 0.055) / 1.055) ** 1.4;
  return slope / 255 / (light * Math.LN2);
}
