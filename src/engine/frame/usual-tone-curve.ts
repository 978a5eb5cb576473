/** Light of the scene at which a curve shows mid grey, and its slope there in logarithms. */
export interface ToneCurveShape {
  /** Of the light that just saturates. */
  readonly midGreyScene: number;
  readonly contrast: number;
}

/** log2 of the scene's light that a curve shows as a level of decoded light; both 0 to 1, of white. */
export type SceneStops = (decoded: number) => number;

/** What mid grey is decoded as, whatever the curve: a card of 18 % reflectance. */
const MID_GREY_DECODED = 0.18;

/**
 * A tone curve of the shape that cameras lay on, from decoded light back to the scene: an S in the form
 * y = (1 + c) x^k / (x^k + c) through white and mid grey. An estimate of a usual curve, not a measurement of any.
 */
export function usualToneCurve({ midGreyScene, contrast }: ToneCurveShape): SceneStops {
  // the slope of log y against log x is k (1 − y / (1 + c))
  const exponentAt = (c: number) => contrast / (1 - MID_GREY_DECODED / (1 + c));
  // in logarithms of c: the decoded mid grey falls as c rises
  let [low, high] = [-7, 14];
  for (let step = 0; step < 60; step++) {
    const c = 2 ** ((low + high) / 2);
    const power = midGreyScene ** exponentAt(c);
    if (((1 + c) * power) / (power + c) > MID_GREY_DECODED) low = Math.log2(c);
    else high = Math.log2(c);
  }
  const c = 2 ** ((low + high) / 2);
  const k = exponentAt(c);
  return (decoded) => Math.log2((c * decoded) / (1 + c - decoded)) / k;
}
