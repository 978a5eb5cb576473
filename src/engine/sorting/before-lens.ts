import type { FrameGlance } from './frame-glance.ts';
import { exposureChangeEv, type FrameMatch, matchFrames } from './match-frames.ts';

/** Frames before and after that one is held against. */
const NEIGHBOURS = 8;
/** Settings and lamps repeat to well within this; without settings a bracket's steps have to be allowed for. */
const LOOSE_EV = 0.6;
const LOOSE_WITHOUT_SETTINGS_EV = 2.5;
/** Part of the height from above in which a subject seldom touches the frame's sides; it stands on something below. */
const UPPER_SHARE = 2 / 3;
/** Frames alike in so many cells show one and the same thing. */
const SAME_SHARE = 0.9;

/** What tells a hand or a card before the lens. */
export interface BeforeLens {
  /** Share of the sides' cells that no near frame shows alike, 0 to 1. */
  readonly sidesShare: number;
  /** By how much more the frames before and after are alike than either is with this one; below 0 where less. */
  readonly oddShare: number;
}

/** What of every frame speaks for something held before the lens for one frame; the frames are of usual level. */
export function beforeLens(glances: readonly FrameGlance[]): BeforeLens[] {
  const known = new Map<number, FrameMatch>();
  const match = (i: number, j: number): FrameMatch => {
    const [first, second] = i < j ? [i, j] : [j, i];
    const key = first * glances.length + second;
    const found = known.get(key) ?? matchNear(glances[first]!, glances[second]!);
    known.set(key, found);
    return found;
  };
  return glances.map((glance, i) => {
    let sidesShare = 1;
    for (let j = Math.max(0, i - NEIGHBOURS); j <= Math.min(glances.length - 1, i + NEIGHBOURS); j++) {
      if (j === i || (Math.abs(j - i) === 1 && match(i, j).share > SAME_SHARE && isSecondOfPair(i, j)))
        continue;
      sidesShare = Math.min(sidesShare, sidesThatDiffer(glance, match(i, j).differs));
    }
    const [before, after] = [i - 1, i + 1];
    if (before < 0 || after >= glances.length) return { sidesShare, oddShare: 0 };
    const alike = Math.max(match(before, i).share, match(i, after).share);
    return { sidesShare, oddShare: match(before, after).share - alike };
  });

  /** Two frames of one hand must not vouch for one another. */
  function isSecondOfPair(i: number, j: number): boolean {
    const others = [i - 1, i + 1, j - 1, j + 1].filter(
      (k) => k !== i && k !== j && k >= 0 && k < glances.length,
    );
    return others.every((k) => match(i, k).share < SAME_SHARE);
  }
}

function matchNear(first: FrameGlance, second: FrameGlance): FrameMatch {
  const isStated = exposureChangeEv(first, second) !== null;
  return matchFrames(first, second, isStated ? LOOSE_EV : LOOSE_WITHOUT_SETTINGS_EV);
}

function sidesThatDiffer({ columns, rows }: FrameGlance, differs: Uint8Array): number {
  let cells = 0;
  let different = 0;
  for (let row = 0; row < rows * UPPER_SHARE; row++) {
    for (let column = 0; column < columns; column++) {
      if (row > 0 && column > 0 && column < columns - 1) continue;
      cells++;
      different += differs[row * columns + column]!;
    }
  }
  return different / cells;
}
