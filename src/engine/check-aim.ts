import type { Aim } from './aim.ts';

const FIELDS = {
  even: [],
  'clean-white': ['whiteCode', 'mostOverEv'],
  ramp: ['angleDeg', 'ev'],
} as const satisfies Record<Aim['kind'], readonly string[]>;

/** What can be asked for: a ramp finer than a twentieth of a stop no frame tells, and ten stops are no ramp to speak of. */
export const AIM_LIMITS = {
  whiteCode: { least: 1, most: 255 },
  mostOverEv: { least: 0, most: 5 },
  angleDeg: { least: 0, most: 360 },
  ev: { least: 0.05, most: 10 },
} as const;

/**
 * @throws TypeError where an aim is none, or a figure of it is no number; RangeError for a number that can't be asked for.
 */
export function checkAim(aim: Aim): void {
  const kind: unknown = (aim as { kind?: unknown } | null | undefined)?.kind;
  if (typeof kind !== 'string' || !Object.hasOwn(FIELDS, kind))
    throw new TypeError(`an aim’s kind is one of ${Object.keys(FIELDS).join(', ')}, not "${String(kind)}"`);
  for (const name of FIELDS[kind as Aim['kind']]) {
    const value = (aim as unknown as Record<string, unknown>)[name];
    if (name === 'whiteCode' && value === null) continue; // where the file clips
    if (typeof value !== 'number') throw new TypeError(`an aim’s ${name} must be a number, not ${value}`);
    const { least, most } = AIM_LIMITS[name];
    if (!(value >= least && value <= most))
      throw new RangeError(`an aim’s ${name} must be from ${least} to ${most}, not ${value}`);
  }
}
