import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';

/** How near the hottest smoothed cell of a channel comes to the level at which that channel clips. */
export interface ChannelLevel {
  /** The one that clips first when more light comes. */
  readonly channel: keyof CellChannels;
  /** log2 of its light over its clip level; about 0 where it clips already. */
  readonly ev: number;
}

const CHANNELS = ['red', 'green', 'blue'] as const;

/** The channel of smoothed cells that clips first; −Infinity stops where there is no light. */
export function firstToClip(smoothed: CellChannels, { clipLight = [1, 1, 1] }: CellGrid): ChannelLevel {
  const levels = CHANNELS.map((channel, i) => {
    let most = 0;
    for (const value of smoothed[channel]) if (value > most) most = value; // NaN compares false
    return { channel, ev: Math.log2(most / clipLight[i]!) };
  });
  return levels.reduce((first, level) => (level.ev > first.ev ? level : first));
}
