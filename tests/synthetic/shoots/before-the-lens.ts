import type { Draws } from '../random/draws.ts';
import type { Subject } from '../subject-scene.ts';
import { joined } from '../subjects.ts';

type Shape = Subject['distancePx'];

/** Near the lens nothing is sharp: an outline is wider by so much. */
const soft =
  (shape: Shape, blur: number): Shape =>
  (x, y) =>
    shape(x, y) / blur;

function capsule(fromX: number, fromY: number, toX: number, toY: number, radius: number): Shape {
  const [alongX, alongY] = [toX - fromX, toY - fromY];
  const length = alongX * alongX + alongY * alongY;
  return (x, y) => {
    const t = Math.min(Math.max(((x - fromX) * alongX + (y - fromY) * alongY) / length, 0), 1);
    return Math.hypot(x - fromX - t * alongX, y - fromY - t * alongY) - radius;
  };
}

/** A hand held before the lens: an arm from one side, a palm, fingers; lit from the front, or dark before the light. */
export function hand(draws: Draws, widthPx: number, heightPx: number): Subject {
  const from = draws.between(0, 2 * Math.PI);
  const [along, across] = [
    [Math.cos(from), Math.sin(from)],
    [-Math.sin(from), Math.cos(from)],
  ] as const;
  const size = draws.between(0.2, 0.32) * widthPx;
  const [palmX, palmY] = [draws.between(0.35, 0.65) * widthPx, draws.between(0.35, 0.65) * heightPx];
  const at = (forward: number, aside: number): [number, number] => [
    palmX - along[0]! * forward * size + across[0]! * aside * size,
    palmY - along[1]! * forward * size + across[1]! * aside * size,
  ];
  const arm = capsule(palmX, palmY, ...at(-6, 0), 0.5 * size);
  const palm = capsule(...at(-0.2, 0), ...at(0.25, 0), 0.62 * size);
  const spread = draws.between(0.05, 0.35);
  const fingers = [-0.48, -0.16, 0.16, 0.48].map((place) =>
    capsule(...at(0.4, place), ...at(1.5 - Math.abs(place) * 0.5, place * (1 + 2 * spread)), 0.15 * size),
  );
  const light = 2 ** draws.between(-5.5, -0.8);
  const [red, blue] = [2 ** draws.between(0.15, 0.7), 2 ** -draws.between(0.1, 0.7)];
  const shape = joined(arm, palm, ...fingers);
  return {
    distancePx: soft(shape, draws.between(3, 14)),
    light: (x, y) => {
      const shade = 1 + 0.25 * Math.sin(x / (0.3 * size) + y / (0.4 * size));
      return [light * red * shade, light * shade, light * blue * shade];
    },
  };
}

/** A card held before the lens, turned a little: black, grey or white, plain. */
export function card(draws: Draws, widthPx: number, heightPx: number): Subject {
  const turn = draws.between(-0.35, 0.35);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [centreX, centreY] = [draws.between(0.3, 0.7) * widthPx, draws.between(0.3, 0.7) * heightPx];
  const [halfWidth, halfHeight] = [draws.between(0.38, 0.62) * widthPx, draws.between(0.42, 0.7) * heightPx];
  const light = draws.either([0.02, 0.09, 0.18, 0.4]) * 2 ** draws.between(-0.5, 0.5);
  const shape: Shape = (x, y) => {
    const [right, down] = [x - centreX, y - centreY];
    return Math.max(Math.abs(c * right + s * down) - halfWidth, Math.abs(c * down - s * right) - halfHeight);
  };
  return {
    distancePx: soft(shape, draws.between(2, 10)),
    light: (x, y) => {
      const fall = light * 2 ** (0.3 * (x / widthPx - 0.5) - 0.2 * (y / heightPx - 0.5));
      return [fall, fall, fall];
    },
  };
}
