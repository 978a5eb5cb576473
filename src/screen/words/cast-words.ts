import type { FramePoint, Gradient, Reading } from '../../engine/reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { hasSlope } from '../../plots/has-slope.ts';
import { chromaticity, decimals, plusMinus, signed, stops } from './figures.ts';
import { directionWords } from './place-words.ts';
import { extentWords } from './region-words.ts';
import { colourFigure } from './tolerance-words.ts';
import { kelvinAside } from './warmth.ts';

type Figure = readonly [name: string, figure: string];

/** The cast in figures, each with its unit and ±. */
export function castFigures({ cast }: Reading): readonly Figure[] {
  const figures: Figure[] = [
    ['From white', `${chromaticity(cast.deltaUv)}\u00a0Δu′v′${plusMinus(cast.plusMinusDeltaUv, 4)}`],
  ];
  if (cast.mired !== null) figures.push(['Warmth', warmthFigure(cast.mired, cast.plusMinusMired)]);
  if (cast.duv !== null)
    figures.push(['Green–magenta', `${signed(cast.duv, 4)} Duv${plusMinus(cast.plusMinusDuv, 4)}`]);
  figures.push(['Colour difference', `${decimals(cast.deltaE00, 1)}\u00a0ΔE00 at L*\u00a090`]);
  return figures;
}

/** "+7.7 mired ± 0.3 (about 220 K at 5500 K)": kelvin where there is a warmth to speak of. */
function warmthFigure(mired: number, plusMinusMired: number | null, hasKelvin = true): string {
  const kelvin = !hasKelvin || Math.abs(mired) < 0.5 ? '' : ` (${kelvinAside(mired)})`;
  return `${signed(mired, 1)} mired${plusMinus(plusMinusMired, 1)}${kelvin}`;
}

/** The cast plane in one sentence for those who do not see it; what the ± leaves open is called neither side. */
export function castSummary({ cast, region }: Reading, { castDeltaUv }: Tolerance): string {
  const { deltaUv, plusMinusDeltaUv } = cast;
  const limit = `the limit of ${colourFigure(castDeltaUv)}`;
  const side =
    deltaUv + plusMinusDeltaUv <= castDeltaUv
      ? `inside ${limit}`
      : deltaUv - plusMinusDeltaUv > castDeltaUv
        ? `outside ${limit}`
        : `too close to ${limit} to say whether inside`;
  const figure = `${chromaticity(deltaUv)}${plusMinus(plusMinusDeltaUv, 4)} Δu′v′`;
  return `The mean of ${extentWords(region)} lies ${figure} from white, ${side}.`;
}

/** From the left and the top edge; outside the frame too. */
function placeInFrame({ x, y }: FramePoint): string {
  return `${decimals(x * 100, 0)} % across, ${decimals(y * 100, 0)} % down`;
}

/**
 * The gradient as the figures that a straight ramp in an editor needs, in mired alone where there is no room for the
 * kelvin beside; `null` where it is none to speak of.
 */
export function gradientFigures(gradient: Gradient, hasKelvin = true): readonly Figure[] | null {
  if (gradient.angleDeg === null || !hasSlope(gradient)) return null;
  return [
    [
      'Angle',
      `${decimals(gradient.angleDeg, 0)}°${plusMinus(gradient.plusMinusDeg, 0)} (${directionWords(gradient.angleDeg)})`,
    ],
    ['From', placeInFrame(gradient.from)],
    ['To', placeInFrame(gradient.to)],
    ['Light', `${stops(gradient.ev, 2)}${plusMinus(gradient.plusMinusEv, 2)}`],
    [
      'Warmth',
      gradient.mired === null
        ? 'not known'
        : warmthFigure(gradient.mired, gradient.plusMinusMired, hasKelvin),
    ],
    ['Green–magenta', gradient.duv === null ? 'not known' : `${signed(gradient.duv, 4)} Duv`],
  ];
}
