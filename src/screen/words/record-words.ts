import type { Exposure, Reading } from '../../engine/reading.ts';
import type { Setup } from '../../engine/setup.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import { gradientFigures } from './cast-words.ts';
import { decimals, percent, plusMinus, stops } from './figures.ts';
import { type LengthUnit, lengthWords } from './length-words.ts';
import { ARRANGEMENT_WORDS, lightNames } from './setup-words.ts';

type Figure = readonly [name: string, figure: string];

/** "1/125 s, f/5.6, ISO 100, 50 mm"; `null` where the file says nothing of it. */
export function exposureWords(exposure: Exposure | null): string | null {
  if (exposure === null) return null;
  const { seconds, fNumber, iso, focalLengthMm } = exposure;
  const parts = [
    seconds === null ? null : `${shutterFigure(seconds)} s`,
    fNumber === null ? null : `f/${decimals(fNumber, fNumber < 10 ? 1 : 0)}`,
    iso === null ? null : `ISO ${iso}`,
    focalLengthMm === null ? null : `${decimals(focalLengthMm, 0)} mm`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.join(', ');
}

/** As it is marked: whole fractions below a third of a second, seconds above. */
function shutterFigure(seconds: number): string {
  return seconds < 0.3 ? `1/${Math.round(1 / seconds)}` : `${Number(seconds.toPrecision(2))}`;
}

/** How even the light is, in all its figures. */
export function falloffFigures({ falloff }: Reading): readonly Figure[] {
  const least = falloff.isLowerBound ? 'at least ' : '';
  return [
    [
      'Spread',
      `${least}${stops(falloff.spreadEv, 2)}${falloff.isLowerBound ? '' : plusMinus(falloff.plusMinusEv, 2)}`,
    ],
    ['Standard deviation', stops(falloff.stdEv, 3)],
    ['Darkest of brightest', percent(falloff.minOverMax, 1)],
    ['Same, at nine points', percent(falloff.ninePointMinOverMax, 1)],
    ['Darkest of mean', percent(falloff.minOverMean, 1)],
    ['Most from the centre', percent(falloff.fromCentreMax, 1)],
    ['Steepest', `${stops(falloff.steepestEvPerFrameWidth, 2)} a frame’s width`],
  ];
}

/** The straight ramp in one line each, as the record is one page; nothing where there is none to speak of. */
export function rampFigures({ gradient }: Reading): readonly Figure[] {
  return (gradientFigures(gradient, false) ?? []).map(([name, figure]) => [
    `Ramp: ${name.toLowerCase()}`,
    figure,
  ]);
}

/** The set-up as it was entered; what was not is left out. */
export function enteredFigures(setup: Setup, unit: LengthUnit): readonly Figure[] {
  const length = (mm: number | null | undefined) => (mm == null ? null : lengthWords(mm, unit));
  const lights = lightNames(setup.arrangement);
  const { leftMm, rightMm, upMm, downMm, reachMm } = setup.room;
  const room = (
    [
      ['left', leftMm],
      ['right', rightMm],
      ['up', upMm],
      ['down', downMm],
      ['at most', reachMm],
    ] as const
  ).flatMap(([way, mm]) => (mm === null ? [] : [`${way} ${lengthWords(mm, unit)}`]));
  const all: readonly (readonly [string, string | null])[] = [
    ['Set-up', ARRANGEMENT_WORDS[setup.arrangement] + (setup.light === null ? '' : `, ${setup.light}`)],
    ['Frame’s width', length(setup.frameWidthMm)],
    ...lights.map((light, i) => [`Distance of ${light}`, length(setup.lampDistanceMm[i])] as const),
    ['Width of the light', length(setup.lampWidthMm)],
    ['Camera’s distance', length(setup.cameraDistanceMm)],
    ['Room for the light', room.length === 0 ? null : room.join(', ')],
  ];
  return all.filter((figure): figure is Figure => figure[1] !== null);
}

/** What the frame is judged by, and where that comes from. */
export function judgedByWords({ name, source }: Tolerance): string {
  return `${name}. ${source}`;
}
