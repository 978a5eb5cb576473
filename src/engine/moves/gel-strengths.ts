/*
 * Shifts of the gels that are sold, in mired. Trade values, no two makers' are the same: one table of them; its "full"
 * blue agrees with 3200 K made 5700 K (−137). Green and magenta gels are left out: no figures of theirs are confirmed.
 */

export interface GelStrength {
  readonly name: string;
  readonly mired: number;
}

export const GELS: readonly GelStrength[] = [
  { name: 'full orange', mired: 159 },
  { name: 'half orange', mired: 109 },
  { name: 'quarter orange', mired: 64 },
  { name: 'eighth orange', mired: 26 },
  { name: 'full blue', mired: -137 },
  { name: 'half blue', mired: -78 },
  { name: 'quarter blue', mired: -35 },
  { name: 'eighth blue', mired: -18 },
];
