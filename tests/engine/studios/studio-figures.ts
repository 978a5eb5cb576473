import type { PlaceError } from './figure-errors.ts';
import type { StudioScore } from './score-studio.ts';

/** So many of so many. */
export interface Part {
  readonly count: number;
  readonly of: number;
}

/** Scores of many studios, taken together. */
export interface StudioFigures {
  /** Studios whose strongest planted cause is named first, or tied first. */
  readonly named: Part;
  /** How many of these only say that two causes cannot be told apart, it being one of them. */
  readonly namedByCannotTell: number;
  /** Causes told that are not there, of all that could be; and studios with any. */
  readonly falseCauses: Part;
  readonly studiosWithFalse: Part;
  /** The same of creases, weave and specks. */
  readonly falseTextures: Part;
  /** Distances of lights from where they stand, in frame widths. */
  readonly placeWidths: readonly number[];
  /** The same of lights whose own ± says that they are as near as this. */
  readonly placeWidthsClaimed: (limit: number) => readonly number[];
  /** Places, right and down, that lie within their ±. */
  readonly placesWithinPlusMinus: Part;
  /** Errors of the spill's share, as parts of it: from one frame where it is claimed, and with the lights off. */
  readonly spillFromOneFrame: readonly number[];
  readonly spillNotClaimed: number;
  readonly spillWithLightsOff: readonly number[];
  /** With the camera slid, in stops. */
  readonly lensEv: readonly number[];
  /** As parts of the period. */
  readonly bandPeriod: readonly number[];
  readonly unequalColourMired: readonly number[];
  readonly fitMs: readonly number[];
}

export function studioFigures(scores: readonly StudioScore[]): StudioFigures {
  const studios = (holds: (score: StudioScore) => boolean): Part => ({
    count: scores.filter(holds).length,
    of: scores.length,
  });
  const kinds = (which: 'falseCauses' | 'falseTextures'): Part => ({
    count: scores.reduce((sum, score) => sum + score[which].told.length, 0),
    of: scores.reduce((sum, score) => sum + score[which].possible.length, 0),
  });
  const places = scores.flatMap((score) => score.places);
  const inside = places.flatMap(({ rightWidths, downWidths, plusMinusRight, plusMinusDown }) => [
    Math.abs(rightWidths) <= plusMinusRight,
    Math.abs(downWidths) <= plusMinusDown,
  ]);
  const spills = scores.flatMap(({ spill }) => (spill === null ? [] : [spill]));
  return {
    named: studios(({ named }) => named !== 'not'),
    namedByCannotTell: scores.filter(({ named }) => named === 'cannot-tell').length,
    falseCauses: kinds('falseCauses'),
    studiosWithFalse: studios(({ falseCauses }) => falseCauses.told.length > 0),
    falseTextures: kinds('falseTextures'),
    placeWidths: places.map(distance),
    placeWidthsClaimed: (limit) => {
      const claimed = places.filter(
        (place) => Math.hypot(place.plusMinusRight, place.plusMinusDown) <= limit,
      );
      return claimed.map(distance);
    },
    placesWithinPlusMinus: { count: inside.filter(Boolean).length, of: inside.length },
    spillFromOneFrame: known(spills.map(({ fromOneFrame }) => fromOneFrame)),
    spillNotClaimed: spills.filter(({ fromOneFrame }) => fromOneFrame === null).length,
    spillWithLightsOff: spills.map(({ withLightsOff }) => withLightsOff),
    lensEv: known(scores.map(({ lensEv }) => lensEv)),
    bandPeriod: known(scores.map(({ bandPeriod }) => bandPeriod)),
    unequalColourMired: known(scores.map(({ unequalColourMired }) => unequalColourMired)),
    fitMs: scores.map(({ fitMs }) => fitMs),
  };
}

const distance = ({ rightWidths, downWidths }: PlaceError) => Math.hypot(rightWidths, downWidths);

const known = (errors: readonly (number | null)[]) => errors.filter((error) => error !== null);

/** 0 to 1; NaN of none, which passes no limit. */
export const shareOf = ({ count, of }: Part): number => count / of;

/** How many errors are no larger than the limit. */
export const within = (errors: readonly number[], limit: number): Part => ({
  count: errors.filter((error) => Math.abs(error) <= limit).length,
  of: errors.length,
});

/** The largest error, without its sign; −∞ of none. */
export const worst = (errors: readonly number[]): number => Math.max(...errors.map(Math.abs));

/** The middle one of the errors without their signs, NaN of none. */
export function medianSize(errors: readonly number[]): number {
  const sizes = errors.map(Math.abs).sort((a, b) => a - b);
  return sizes[sizes.length >> 1] ?? Number.NaN;
}
