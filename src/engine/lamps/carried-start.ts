import { changedSet, type SetChange } from './light-change.ts';
import type { LitSet } from './lit-set.ts';
import type { SetModel } from './set-model.ts';

/** A set that explained an earlier frame, and the figures that it was built from, by name. Structured-cloneable. */
export interface FoundSet {
  readonly set: LitSet;
  /** In standard deviations from what was expected. */
  readonly figures: Readonly<Record<string, number>>;
}

/** Nothing begins farther than this from what is expected, in standard deviations. */
const MOST = 4;

/**
 * Where the search for a changed set begins: what was found before, with places, distances and aims as the change has
 * left them, and no slip of the hands. Figures that the earlier family had not stand as expected.
 */
export function carriedStart(model: SetModel, { set, figures }: FoundSet, change: SetChange): Float64Array {
  const moved = placesOf(changedSet(set, change));
  return Float64Array.from(model.parameters, ({ name, pointAt }) => {
    if (name.startsWith('slip ')) return 0;
    const place = moved[name];
    const point = place === undefined ? (figures[name] ?? 0) : pointAt(place);
    return Number.isFinite(point) ? Math.min(MOST, Math.max(-MOST, point)) : 0;
  });
}

/** Places, distances and aims of a set's lights under the names that the model asks for them by. */
function placesOf({ lights }: LitSet): Record<string, number> {
  const [first, second] = lights;
  if (first === undefined) return {};
  const places: Record<string, number> = { 'light 0 distance': Math.log(first.distance) };
  if (second === undefined)
    return {
      ...places,
      'light 0 right': first.x,
      'light 0 down': first.y,
      'light 0 aim right': first.aimX - first.x,
      'light 0 aim down': first.aimY - first.y,
    };
  lights.forEach(({ aimX, aimY }, lamp) => {
    places[`light ${lamp} aim right`] = aimX;
    places[`light ${lamp} aim down`] = aimY;
  });
  const level = ({ strengthEv, distance }: typeof first) => strengthEv - 2 * Math.log2(distance);
  return {
    ...places,
    'middle right': (first.x + second.x) / 2,
    'half apart': Math.log(Math.max(0.01, (second.x - first.x) / 2)),
    'middle down': (first.y + second.y) / 2,
    'right light down': (second.y - first.y) / 2,
    'light 1 level': level(second) - level(first),
  };
}
