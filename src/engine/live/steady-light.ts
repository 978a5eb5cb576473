import type { CellChannels } from '../grid/cell-grid.ts';
import { coarseStops } from './coarse-stops.ts';

/** What has changed between one picture of a feed and those before it. */
export interface FeedChange {
  /** Whether the light's shape moves, so that averaging begins anew. */
  readonly isMoving: boolean;
  /** Change of the common level, and of red against blue light, since averaging began; stops. */
  readonly levelEv: number;
  readonly redOverBlueEv: number;
}

/** So many pictures are averaged at most: two to three seconds of a feed. */
const LONGEST = 60;
/** The last few are held against those before them: a slow move shows only over some pictures. */
const LATEST = 4;
/** Shapes that differ by less than this are one; own choice, under what the figures are wanted to. */
const LEAST_MOVE_EV = 0.006;
/** And by less than so many standard deviations of what pictures differ by anyway. */
const DEVIATIONS = 4;

interface Held {
  /** Light over its own mean, so that flicker and automatic exposure do not count. */
  readonly shape: CellChannels;
  readonly coarse: Float64Array;
  readonly levelEv: number;
  readonly redOverBlueEv: number;
}

/** Averages the shape of a feed's light for as long as it stands still. */
export class SteadyLight {
  private held: Held[] = [];
  private beganAt: Held | null = null;
  /** Whether it moved last, and has not stood still for long enough since to say otherwise. */
  private hasMoved = false;
  /** Of the shapes held, kept as they come and go. */
  private sum: CellChannels;

  constructor(
    private readonly columns: number,
    private readonly rows: number,
  ) {
    this.sum = emptyLight(columns * rows);
  }

  /** Pictures that are averaged now. */
  get pictures(): number {
    return this.held.length;
  }

  add(light: CellChannels): FeedChange {
    const next = this.hold(light);
    this.held.push(next);
    addTo(this.sum, next.shape, 1);
    if (this.moves()) {
      this.held = this.held.slice(-LATEST);
      this.sum = emptyLight(this.columns * this.rows);
      for (const { shape } of this.held) addTo(this.sum, shape, 1);
      this.beganAt = null;
      this.hasMoved = true;
    } else if (this.held.length >= 2 * LATEST) this.hasMoved = false;
    if (this.held.length > LONGEST) addTo(this.sum, this.held.shift()!.shape, -1);
    this.beganAt ??= next;
    return {
      isMoving: this.hasMoved,
      levelEv: next.levelEv - this.beganAt.levelEv,
      redOverBlueEv: next.redOverBlueEv - this.beganAt.redOverBlueEv,
    };
  }

  /** Mean shape of the pictures held, its own mean 1. */
  mean(): CellChannels {
    return over(this.sum, this.held.length);
  }

  /** The same of all but one part of several, in order of time. */
  meanWithout(part: number, of: number): CellChannels {
    const left = this.held.filter((_, i) => Math.floor((i * of) / this.held.length) === part);
    const sum = over(this.sum, 1);
    for (const { shape } of left) addTo(sum, shape, -1);
    return over(sum, this.held.length - left.length);
  }

  private hold(light: CellChannels): Held {
    const [red, green, blue] = [meanOf(light.red), meanOf(light.green), meanOf(light.blue)];
    const shape = over(light, green);
    return {
      ...{ shape, coarse: coarseStops(shape.green, this.columns, this.rows) },
      ...{ levelEv: Math.log2(green), redOverBlueEv: Math.log2(red / blue) },
    };
  }

  /** Whether the latest pictures show another shape than those before them. */
  private moves(): boolean {
    if (this.held.length < 2 * LATEST) return false;
    const latest = this.held.slice(-LATEST);
    const before = this.held.slice(0, -LATEST);
    const changeEv = rmsDifference(meanCoarse(latest), meanCoarse(before));
    // what neighbouring pictures differ by is noise, or motion: the quieter half of them is noise
    const steps = before
      .slice(1)
      .map(({ coarse }, i) => rmsDifference(coarse, before[i]!.coarse))
      .toSorted((a, b) => a - b);
    const noiseEv = steps[Math.floor(steps.length / 4)]! / Math.SQRT2;
    return changeEv > LEAST_MOVE_EV + DEVIATIONS * noiseEv * Math.sqrt(1 / LATEST + 1 / before.length);
  }
}

function emptyLight(count: number): CellChannels {
  return { red: new Float64Array(count), green: new Float64Array(count), blue: new Float64Array(count) };
}

function over({ red, green, blue }: CellChannels, by: number): CellChannels {
  const divided = (values: Float64Array) => values.map((value) => value / by);
  return { red: divided(red), green: divided(green), blue: divided(blue) };
}

function addTo(sum: CellChannels, light: CellChannels, times: 1 | -1): void {
  for (const channel of ['red', 'green', 'blue'] as const) {
    const into = sum[channel];
    const from = light[channel];
    for (let i = 0; i < into.length; i++) into[i] = into[i]! + times * from[i]!;
  }
}

function meanOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function meanCoarse(held: readonly Held[]): Float64Array {
  const sum = new Float64Array(held[0]!.coarse.length);
  for (const { coarse } of held) for (let i = 0; i < sum.length; i++) sum[i] = sum[i]! + coarse[i]!;
  return sum.map((value) => value / held.length);
}

function rmsDifference(first: Float64Array, second: Float64Array): number {
  const squares = first.reduce((sum, value, i) => sum + (value - second[i]!) ** 2, 0);
  return Math.sqrt(squares / first.length);
}
