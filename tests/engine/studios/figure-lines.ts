import { medianSize, type Part, type StudioFigures, shareOf, within, worst } from './studio-figures.ts';

/** What is aimed at, in the figures' own units. */
export const TARGETS = {
  named: 0.9,
  falseCauses: 0.05,
  placeWidths: 0.08,
  covered: [0.92, 0.98],
  spillFromOneFrame: 0.2,
  spillWithLightsOff: 0.05,
  lensEv: 0.05,
  bandPeriod: 0.02,
  unequalColourMired: 10,
  fitMs: 250,
} as const;

/** Every figure beside its target, and whether it holds; a limit of errors holds where all of them keep it. */
export function figureLines(figures: StudioFigures): string[] {
  const { named, falseCauses, placesWithinPlusMinus, spillNotClaimed, fitMs } = figures;
  const [leastCovered, mostCovered] = TARGETS.covered;
  const covered = shareOf(placesWithinPlusMinus);
  return [
    line('strongest cause named first', {
      figure: `${ofAll(named)}, ${figures.namedByCannotTell} of them by saying that it can’t tell two causes apart`,
      target: `at least ${percent(TARGETS.named)}`,
      holds: shareOf(named) >= TARGETS.named,
    }),
    line('causes told that are not there', {
      figure: `${ofAll(falseCauses)} that could be; in ${ofAll(figures.studiosWithFalse)} studios`,
      target: `at most ${percent(TARGETS.falseCauses)}`,
      holds: shareOf(falseCauses) <= TARGETS.falseCauses,
    }),
    line('creases, weave and specks that are not there', {
      figure: `${ofAll(figures.falseTextures)} that could be`,
      target: `at most ${percent(TARGETS.falseCauses)}`,
      holds: shareOf(figures.falseTextures) <= TARGETS.falseCauses,
    }),
    errorLine('place of a light', figures.placeWidths, TARGETS.placeWidths, widths),
    errorLine(
      'place of a light whose own ± is within the target',
      figures.placeWidthsClaimed(TARGETS.placeWidths),
      TARGETS.placeWidths,
      widths,
    ),
    line('± of places', {
      figure: `covers ${ofAll(placesWithinPlusMinus)}`,
      target: `${percent(leastCovered)} to ${percent(mostCovered)}`,
      holds: covered >= leastCovered && covered <= mostCovered,
    }),
    errorLine(
      `spill’s share from one frame, where it is claimed (can’t tell ${spillNotClaimed} more)`,
      figures.spillFromOneFrame,
      TARGETS.spillFromOneFrame,
      percent,
    ),
    errorLine(
      'spill’s share with the lights off',
      figures.spillWithLightsOff,
      TARGETS.spillWithLightsOff,
      percent,
    ),
    errorLine('lens’s loss in the corners with the camera slid', figures.lensEv, TARGETS.lensEv, stops),
    errorLine('period of bands', figures.bandPeriod, TARGETS.bandPeriod, percent),
    errorLine('unequal colour of two lights', figures.unequalColourMired, TARGETS.unequalColourMired, mired),
    errorLine('processor time of fit and findings', fitMs, TARGETS.fitMs, milliseconds),
  ];
}

interface Outcome {
  readonly figure: string;
  readonly target: string;
  /** `null` where there was nothing to measure. */
  readonly holds: boolean | null;
}

function line(name: string, { figure, target, holds }: Outcome): string {
  const outcome = holds === null ? 'none  ' : holds ? 'holds ' : 'misses';
  return `measured: ${outcome} | ${name}: ${figure} | target: ${target}`;
}

function errorLine(
  name: string,
  errors: readonly number[],
  limit: number,
  inWords: (size: number) => string,
): string {
  const target = inWords(limit);
  if (errors.length === 0) return line(name, { figure: 'none to measure', target, holds: null });
  const kept = within(errors, limit);
  return line(name, {
    figure: `median ${inWords(medianSize(errors))}, worst ${inWords(worst(errors))}, ${ofAll(kept)} within`,
    target,
    holds: kept.count === kept.of,
  });
}

const percent = (share: number) => `${Number((share * 100).toFixed(1))} %`;
const ofAll = (part: Part) => `${part.count} of ${part.of} (${percent(shareOf(part))})`;
const widths = (size: number) => `${size.toFixed(3)} frame widths`;
const stops = (ev: number) => `${ev.toFixed(3)} EV`;
const mired = (size: number) => `${size.toFixed(1)} mired`;
const milliseconds = (ms: number) => `${ms.toFixed(0)} ms`;
