import { decodeSrgb, encodeSrgb } from './code-thresholds.ts';

/** What a camera's picture style makes of linear light, 0 to 1 in and out. */
export type ToneCurve = (light: number) => number;

/** sRGB value of 18 % grey, which the curve leaves where it is. */
const PIVOT = encodeSrgb(0.18);

/**
 * An S-curve over sRGB values, of slope `contrast` at middle grey, black and white kept: the value's log odds × the
 * contrast. 1 changes nothing.
 */
export function toneCurve(contrast: number): ToneCurve {
  const pivotOdds = PIVOT / (1 - PIVOT);
  return (light) => {
    if (!(light > 0)) return 0;
    if (light >= 1) return 1;
    const value = encodeSrgb(light);
    const odds = pivotOdds * (value / (1 - value) / pivotOdds) ** contrast;
    return decodeSrgb(odds / (1 + odds));
  };
}
