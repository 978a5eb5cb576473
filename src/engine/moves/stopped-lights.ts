import { changeMade } from './change-made.ts';
import type { Move } from './move.ts';
import type { TakenBefore } from './taken-before.ts';

/** How much farther a light can go, in frame widths from where it stands, and as a ratio of its distance. */
export interface StoppedLight {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
  readonly farther: number;
}

const FREE: StoppedLight = {
  ...{ left: Number.POSITIVE_INFINITY, right: Number.POSITIVE_INFINITY },
  ...{ up: Number.POSITIVE_INFINITY, down: Number.POSITIVE_INFINITY, farther: Number.POSITIVE_INFINITY },
};

/** Who went less than this of a way went as far as there was room; hands and rounding miss by less. Own choice. */
const STOPPED_SHORT = 0.9;
/** A shorter way says nothing of walls, in frame widths and as a change of distance. Own choice. */
const TELLING_WIDTHS = 0.03;
const TELLING_RATIO = 0.03;

/**
 * Where the room's walls are, from what was done less far than it was advised: whoever stands at a set and answers "I
 * moved it so much only" has met one. What was not done at all says nothing. Takes oldest first.
 */
export function stoppedLights(
  takes: readonly Pick<TakenBefore, 'setup' | 'done' | 'advised'>[],
  lights: number,
): StoppedLight[] {
  return takes.reduce(
    (stopped, { setup, done, advised = [] }) => {
      const made = changeMade(done.filter(isOfStand), setup)?.lights;
      const asked = changeMade(advised.filter(isOfStand), setup)?.lights;
      return stopped.map((light, lamp) => {
        const [is, was] = [made?.[lamp], asked?.[lamp]];
        if (is === undefined) return light;
        const stands = { ...carried(light, is.right, is.down), farther: light.farther / is.ratio };
        if (was === undefined) return stands;
        const isShort = (went: number, asked: number, telling: number) =>
          went > telling / 3 && asked > telling && went < STOPPED_SHORT * asked;
        const at = (stop: boolean, room: number, here: number) => (stop ? here : Math.max(here, room));
        return {
          left: at(isShort(-is.right, -was.right, TELLING_WIDTHS), stands.left, 0),
          right: at(isShort(is.right, was.right, TELLING_WIDTHS), stands.right, 0),
          up: at(isShort(-is.down, -was.down, TELLING_WIDTHS), stands.up, 0),
          down: at(isShort(is.down, was.down, TELLING_WIDTHS), stands.down, 0),
          farther: at(isShort(is.ratio - 1, was.ratio - 1, TELLING_RATIO), stands.farther, 1),
        };
      });
    },
    Array.from({ length: lights }, () => FREE),
  );
}

/** A light that was slid stands so much nearer to one wall, and farther from the other. */
const carried = ({ left, right, up, down }: StoppedLight, slidRight: number, slidDown: number) => ({
  ...{ left: left + slidRight, right: right - slidRight },
  ...{ up: up + slidDown, down: down - slidDown },
});

const isOfStand = ({ kind }: Move) => kind === 'slide-lamp' || kind === 'lamp-distance';
