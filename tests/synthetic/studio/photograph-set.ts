import { type KnownField, scaledToPeak } from '../known-field.ts';
import { bandShare } from './flicker-bands.ts';
import { lampRays } from './lamp-rays.ts';
import { lensTint } from './lens-colour.ts';
import { type Rgb, rgbOfLight } from './light-colour.ts';
import { panelLight } from './panel-light.ts';
import { seenLight } from './seen-light.ts';
import type { RoomSpill, StudioLens, StudioSet } from './studio-set.ts';
import { surfaceShare } from './surface-share.ts';

/** What is known of a photographed set beside its frame: the set itself and what each part of it adds. */
export interface SetTruth {
  readonly set: StudioSet;
  /** Multiplies the set's light into the field's 0 to 1; keep it for the next take of the same exposure. */
  readonly exposureFactor: number;
  /** Exposed light of each lamp (one for a panel) and of the spill, lens included: they sum to the field. */
  readonly lamps: readonly KnownField[];
  readonly spill: KnownField | null;
  /** What the lens lets through at a place of the frame, 0 to 1. */
  readonly lensShare: (x: number, y: number) => number;
}

/** Works out the light of a set as the camera sees it, from rays. */
export function photographSet(set: StudioSet): { readonly field: KnownField; readonly truth: SetTruth } {
  const lensShare = lensOf(set);
  const glassTint = lensTint(set);
  const tint = set.background.tint ?? (() => [1, 1, 1] as const);
  const texture = surfaceShare(set);
  const bands = set.bands ? bandShare(set.bands) : () => 1;
  const slidMm = set.cameraRightMm ?? 0;
  const seen = (source: (xMm: number, yMm: number) => Rgb): KnownField => {
    return (x, y) => {
      const xMm = (x - 0.5) * set.frameWidthMm + slidMm;
      const yMm = (y - 0.5) * set.frameHeightMm;
      const light = source(xMm, yMm);
      const surface = tint(xMm, yMm);
      const glass = glassTint(x, y);
      const share = lensShare(x, y) * texture(xMm, yMm) * bands(x, y);
      return [
        light[0] * surface[0] * glass[0] * share,
        light[1] * surface[1] * glass[1] * share,
        light[2] * surface[2] * glass[2] * share,
      ];
    };
  };
  const sources =
    set.background.kind === 'panel' ? [panelOf(set)] : set.lamps.map((_, i) => lampLight(set, i));
  const lamps = sources.map(seen);
  const spill = set.spill ? seen(spillLight(set, set.spill)) : null;
  const whole = sumOf(spill ? [...lamps, spill] : lamps);
  const exposureFactor =
    'factor' in set.exposure ? set.exposure.factor : factorForPeak(whole, set.exposure.peak);
  const exposed = (field: KnownField): KnownField => {
    return (x, y) => {
      const light = field(x, y);
      return [light[0] * exposureFactor, light[1] * exposureFactor, light[2] * exposureFactor];
    };
  };
  const truth: SetTruth = {
    set,
    exposureFactor,
    lamps: lamps.map(exposed),
    spill: spill && exposed(spill),
    lensShare,
  };
  return { field: exposed(whole), truth };
}

function lampLight(set: StudioSet, index: number) {
  const lamp = set.lamps[index]!;
  const rays = lampRays(lamp, set.background.kind === 'sheet' ? -1 : 1);
  const level = seenLight(set, rays);
  const colour = rgbOfLight(lamp.colour, set.whiteBalance);
  return (xMm: number, yMm: number): Rgb => scaled(colour, level(xMm, yMm));
}

function panelOf(set: StudioSet) {
  const panel = set.background;
  if (panel.kind !== 'panel') throw new TypeError('only a panel shines by itself');
  const colour = rgbOfLight(panel.colour, set.whiteBalance);
  const level = panelLight(panel);
  return (xMm: number, yMm: number): Rgb => scaled(colour, level(xMm, yMm));
}

function spillLight(set: StudioSet, spill: RoomSpill) {
  const colour = rgbOfLight(spill.colour, set.whiteBalance);
  const angle = (spill.towardDeg * Math.PI) / 180;
  return (xMm: number, yMm: number): Rgb => {
    const widths = (Math.cos(angle) * xMm + Math.sin(angle) * yMm) / set.frameWidthMm;
    return scaled(colour, spill.level * 2 ** (spill.slopeEv * widths));
  };
}

function lensOf(set: StudioSet): (x: number, y: number) => number {
  const lens: StudioLens | null = set.lens;
  if (!lens) return () => 1;
  const cornerMm = 0.5 * Math.hypot(set.frameWidthMm, set.frameHeightMm);
  return (x, y) => {
    const offMm = Math.hypot((x - 0.5) * set.frameWidthMm, (y - 0.5) * set.frameHeightMm);
    const tangent = offMm / set.cameraDistanceMm;
    const natural = lens.naturalFall ? 1 / (1 + tangent * tangent) ** 2 : 1;
    return natural * 2 ** (-lens.mechanicalEv * (offMm / cornerMm) ** 4);
  };
}

const scaled = (colour: Rgb, level: number): Rgb => [colour[0] * level, colour[1] * level, colour[2] * level];

function sumOf(fields: readonly KnownField[]): KnownField {
  return (x, y) => {
    let [red, green, blue] = [0, 0, 0];
    for (const field of fields) {
      const light = field(x, y);
      red += light[0];
      green += light[1];
      blue += light[2];
    }
    return [red, green, blue];
  };
}

function factorForPeak(field: KnownField, peak: number): number {
  return scaledToPeak(field, peak)(0.5, 0.5)[1] / field(0.5, 0.5)[1];
}
