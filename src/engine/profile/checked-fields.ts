import { EngineError } from '../engine-error.ts';

/** Refuses a profile, saying which field holds what and what was needed. */
export function refuseProfile(field: string, found: unknown, needed: string): never {
  throw new EngineError(
    'wrong-profile',
    `This is not a profile that can be used: ${field} is ${shown(found)}; expected ${needed}. Choose a profile saved by this tool.`,
    { field, needed },
  );
}

function shown(found: unknown): string {
  if (found === undefined) return 'missing';
  if (Number.isNaN(found)) return 'no number';
  if (typeof found === 'object' && found !== null) return Array.isArray(found) ? 'a list' : 'an object';
  return String(found).slice(0, 80);
}

export type Fields = Readonly<Record<string, unknown>>;

export function checkedObject(value: unknown, field: string): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    refuseProfile(field, value, 'an object');
  return value as Fields;
}

export function checkText(value: unknown, field: string): void {
  if (typeof value !== 'string') refuseProfile(field, value, 'a text');
}

/** A finite number from `least` on; JSON writes those that are not finite as null. */
export function checkNumber(value: unknown, field: string, least = Number.NEGATIVE_INFINITY): void {
  if (typeof value !== 'number' || !Number.isFinite(value)) refuseProfile(field, value, 'a finite number');
  if (value < least) refuseProfile(field, value, `at least ${least}`);
}

export function checkCount(value: unknown, field: string, least: number): void {
  checkNumber(value, field, least);
  if (!Number.isInteger(value)) refuseProfile(field, value, 'a whole number');
}

export function checkOneOf(value: unknown, field: string, allowed: readonly string[]): void {
  if (!allowed.includes(value as string)) refuseProfile(field, value, `one of ${allowed.join(', ')}`);
}

/** Each number of these names finite, or null where `orNull`. */
export function checkNumbers(fields: Fields, path: string, names: readonly string[], orNull = false): void {
  for (const name of names) {
    if (orNull && fields[name] === null) continue;
    checkNumber(fields[name], `${path}.${name}`);
  }
}

export function checkNumberList(value: unknown, field: string, length: number): void {
  if (!Array.isArray(value)) refuseProfile(field, value, `a list of ${length} numbers`);
  if (value.length !== length) refuseProfile(field, `a list of ${value.length}`, `${length} numbers`);
  for (let at = 0; at < length; at++) checkNumber(value[at], `${field}[${at}]`);
}
