import type { Setup } from './setup.ts';

const ARRANGEMENTS: readonly Setup['arrangement'][] = ['behind-sheet', 'bounced', 'two-lamps', 'panel'];
const LIGHTS: readonly Setup['light'][] = ['flash', 'continuous', null];
const LENGTHS = ['frameWidthMm', 'lampWidthMm', 'cameraDistanceMm'] as const;
const ROOM = ['leftMm', 'rightMm', 'upMm', 'downMm', 'reachMm'] as const;
/** A kilometre: no set is larger, and lengths far beyond it leave no figures. */
const LONGEST_MM = 1e6;

/**
 * @throws TypeError where a set-up lacks a part that it is made of; RangeError where it has an unknown arrangement or
 * light, or a length that is neither `null` nor one that a set can have.
 */
export function checkSetup(setup: Setup): void {
  if (!isObject(setup) || !isObject(setup.room) || !Array.isArray(setup.lampDistanceMm))
    throw new TypeError('a set-up is an object that has lampDistanceMm, a list, and room, an object');
  const { arrangement, light, lampDistanceMm, room } = setup;
  if (!ARRANGEMENTS.includes(arrangement))
    throw new RangeError(
      `a set-up’s arrangement is one of ${ARRANGEMENTS.join(', ')}, not ${String(arrangement)}`,
    );
  if (!LIGHTS.includes(light))
    throw new RangeError(`a set-up’s light is "flash", "continuous" or null, not ${String(light)}`);
  for (const name of LENGTHS) checkLength(name, setup[name], Number.MIN_VALUE);
  for (const [lamp, mm] of lampDistanceMm.entries())
    checkLength(`lampDistanceMm[${lamp}]`, mm, Number.MIN_VALUE);
  for (const name of ROOM) checkLength(`room.${name}`, room[name], 0);
}

function isObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function checkLength(name: string, mm: unknown, least: number): void {
  if (mm === null || (typeof mm === 'number' && mm >= least && mm <= LONGEST_MM)) return;
  throw new RangeError(
    `a set-up’s ${name} is ${least > 0 ? 'above 0' : 'from 0'} to ${LONGEST_MM}, or null, not ${String(mm)}`,
  );
}
