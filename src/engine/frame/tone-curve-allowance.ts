import { type SceneStops, type ToneCurveShape, usualToneCurve } from './usual-tone-curve.ts';

/**
 * Curves between which a camera's own is taken to lie. Mid grey at 1/7.8 of the saturating light is the ratio of the
 * constants 78 and 10 of ISO 12232's two speeds, quoted from memory; at 18 % no room is kept for highlights. A contrast
 * of 1.2 at mid grey is common practice, no published source; 1.5 a lively picture style, own choice.
 */
const USUAL: readonly ToneCurveShape[] = [10 / 78, 0.18].flatMap((midGreyScene) =>
  [1.2, 1.5].map((contrast) => ({ midGreyScene, contrast })),
);

/**
 * A curve flattens light, it never turns a falloff round: what is brighter stays so. Just below white more than this may
 * be hidden, which a ± on both sides can't tell.
 */
const LARGEST_SHARE = 0.95;

let curves: readonly SceneStops[] | null = null;

/**
 * How many stops of a falloff between two levels of decoded light (1 is white) a tone curve that is not known may hide
 * or add: the most that any of the usual curves does, and less than the falloff itself. For the half-width of a 95 % interval.
 */
export function toneCurveAllowance(brightDecoded: number, darkDecoded: number): number {
  curves ??= USUAL.map(usualToneCurve);
  const bright = Math.min(1, brightDecoded);
  const dark = Math.min(1, darkDecoded);
  const decodedStops = Math.log2(bright / dark);
  const most = Math.max(...curves.map((scene) => Math.abs(scene(bright) - scene(dark) - decodedStops)));
  return Math.min(most, LARGEST_SHARE * decodedStops);
}
