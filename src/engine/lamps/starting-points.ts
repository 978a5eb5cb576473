import type { SourceColour } from './lit-set.ts';
import type { SetModel } from './set-model.ts';
import type { SetSamples } from './set-samples.ts';
import { spillStart } from './spill-start.ts';

/** Spill of a room's lamps against daylight, and of a window against lamps. */
const SPILL_MIRED = [120, -70, -140] as const;

/** A light aimed past the middle of the frame by so much, in frame widths, and the edge of a beam that shows it. */
const ASTRAY = 0.8;
const NARROW = Math.log((20 * Math.PI) / 180);

/**
 * Where the search for a set begins: a light before the hottest spot, beyond it, or only aimed at it; of two lights
 * the stronger or both on its side, or the other aimed past the middle to it, or itself in a narrow beam; a
 * panel or a lens that falls off; and spill of either colour as the samples' colours let it be (`colourOfFrame`: `null`
 * where it is the same all over).
 */
export function startingPoints(
  model: SetModel,
  samples: SetSamples,
  colourOfFrame: SourceColour | null,
): Float64Array[] {
  const has = (wanted: string) => model.parameters.some(({ name }) => name === wanted);
  const at = (places: Readonly<Record<string, number>>) =>
    Float64Array.from(model.parameters, (parameter) => {
      const wanted = places[parameter.name];
      return wanted === undefined ? 0 : parameter.pointAt(wanted);
    });
  const hottest = samples.ev.reduce((best, ev, i) => (ev > samples.ev[best]! ? i : best), 0);
  const [hotX, hotY] = [samples.x[hottest]!, samples.y[hottest]!];
  const before = { 'light 0 right': hotX, 'light 0 down': hotY };
  const usual: Record<string, number> = has('light 0 right') ? before : {};
  const spills = SPILL_MIRED.flatMap((mired) => {
    const guess = colourOfFrame && spillStart(samples, colourOfFrame, mired);
    if (guess === null) return [];
    const spill = {
      'spill level': guess.levelEv,
      'spill to the right': guess.rightEv,
      'spill down': guess.downEv,
      'spill mired': mired,
    };
    return [at({ ...usual, ...spill })];
  });
  if (has('half apart')) {
    const [near, far] = hotX > 0 ? [1, 0] : [0, 1];
    const astray = (lamp: number) => ({ [`light ${lamp} aim right`]: hotX > 0 ? ASTRAY : -ASTRAY });
    return different([
      at({}),
      at({ 'half apart': Math.log(0.5) }),
      at({ 'light 1 level': hotX > 0 ? 0.8 : -0.8 }),
      at({ 'middle right': hotX }),
      at(astray(far)),
      at({ ...astray(near), 'beam edge': NARROW }),
      ...spills,
    ]);
  }
  const lens = { 'lens square': 0.2, 'lens fourth': 0.1 };
  if (!has('light 0 right'))
    return different([at({}), at(lens), at({ 'panel across': -5, 'panel down': -5 }), ...spills]);
  return different([
    at(before),
    at({ 'light 0 right': 2 * hotX, 'light 0 down': 2 * hotY }),
    at({ 'light 0 aim right': hotX, 'light 0 aim down': hotY }),
    ...spills,
  ]);
}

/**
 * Where else a search may begin, should it find no set that follows the frame: two lights of a narrow beam, one of
 * them aimed far over or past the middle.
 */
export function furtherStarts(model: SetModel, samples: SetSamples): Float64Array[] {
  if (!model.parameters.some(({ name }) => name === 'half apart')) return [];
  const hottest = samples.ev.reduce((best, ev, i) => (ev > samples.ev[best]! ? i : best), 0);
  const side = samples.x[hottest]! > 0 ? 1 : -1;
  const down = 2 * samples.y[hottest]!;
  const places = [0, 1].map((lamp) => ({
    [`light ${lamp} aim right`]: side * ASTRAY,
    [`light ${lamp} aim down`]: down,
    'beam edge': NARROW,
  }));
  return places.map((wanted) =>
    Float64Array.from(model.parameters, ({ name, pointAt }) => (name in wanted ? pointAt(wanted[name]!) : 0)),
  );
}

/** A family that lacks what a start would begin with begins there as from what is expected. */
function different(starts: readonly Float64Array[]): Float64Array[] {
  const isSame = (a: Float64Array, b: Float64Array) => a.every((value, i) => value === b[i]);
  return starts.filter((start, i) => !starts.slice(0, i).some((before) => isSame(start, before)));
}
