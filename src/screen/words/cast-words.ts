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
  if (cast.mired !== null)
    figures.push([
      'Warmth',
      `${signed(cast.mired, 1)} mired${plusMinus(cast.plusMinusMired, 1)}${Math.abs(cast.mired) < 0.5 ? '' : ` (${kelvinAside(cast.mired)})`}`,
    ]);
  if (cast.duv !== null)
    figures.push(['Green–magenta', `${signed(cast.duv, 4)} Duv${plusMinus(cast.plusMinusDuv, 4)}`]);
  figures.push(['Colour difference', `${decimals(cast.deltaE00, 1)}\u00a0ΔE00 at L*\u00a090`]);
  return figures;
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

/** The gradient as the figures that a straight ramp in an editor needs; `null` where it is none to speak of. */
export function gradientFigures(gradient: Gradient): readonly Figure[] | null {
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
        : `${signed(gradient.mired, 1)} mired${plusMinus(gradient.plusMinusMired, 1)}`,
    ],
    ['Green–magenta', gradient.duv === null ? 'not known' : `${signed(gradient.duv, 4)} Duv`],
  ];
}
