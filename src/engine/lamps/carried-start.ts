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
  const asFound = Float64Array.from(model.parameters, ({ name }) =>
    name.startsWith('slip ') ? 0 : (figures[name] ?? 0),
  );
  const wanted = placesOf(changedSet(set, change));
  // what is expected of a length goes with what was entered and with the frame's width, so these figures alone may
  // stand for another one by now: they are taken on by as much as it is off
  const built = placesOf(model.setAt(asFound));
  return asFound.map((point, i) => {
    const { name, pointAt } = model.parameters[i]!;
    const [to, from] = [wanted[name], built[name]];
    const taken = to === undefined || from === undefined ? point : point + pointAt(to) - pointAt(from);
    return Number.isFinite(taken) ? Math.min(MOST, Math.max(-MOST, taken)) : 0;
  });
}

/** Lengths, places and aims of a set under the names that the model asks for them by. */
function placesOf({ lights, cameraDistance }: LitSet): Record<string, number> {
  const camera = { camera: Math.log(cameraDistance) };
  const [first, second] = lights;
  if (first === undefined) return camera;
  const places: Record<string, number> = { ...camera, 'light 0 distance': Math.log(first.distance) };
  if (first.face.kind === 'disc') places['light radius'] = Math.log(first.face.radius);
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
    'light 1 distance': Math.log(second.distance),
    'light 1 farther': Math.log(second.distance / first.distance),
    'middle right': (first.x + second.x) / 2,
    'half apart': Math.log(Math.max(0.01, (second.x - first.x) / 2)),
    'middle down': (first.y + second.y) / 2,
    'right light down': (second.y - first.y) / 2,
    'light 1 level': level(second) - level(first),
  };
}
