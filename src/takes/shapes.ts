/** Whether something that came from a file is what it has to be. */
export type Shape = (value: unknown) => boolean;

/** A figure; what was estimated may be NaN or without an end, which no file of plain text could say otherwise. */
export const number: Shape = (value) => typeof value === 'number';
export const finite: Shape = (value) => Number.isFinite(value);
export const text: Shape = (value) => typeof value === 'string';
export const truth: Shape = (value) => typeof value === 'boolean';

export const orNull =
  (shape: Shape): Shape =>
  (value) =>
    value === null || shape(value);

export const orNothing =
  (shape: Shape): Shape =>
  (value) =>
    value === undefined || shape(value);

export const oneOf =
  (...values: readonly unknown[]): Shape =>
  (value) =>
    values.includes(value);

/** By number: a list may have holes in it, which `every` would not see. */
export const list =
  (shape: Shape): Shape =>
  (value) => {
    if (!Array.isArray(value)) return false;
    for (let i = 0; i < value.length; i++) if (!shape(value[i])) return false;
    return true;
  };

/** An object with these fields at least. */
export const fields =
  (shapes: Readonly<Record<string, Shape>>): Shape =>
  (value) =>
    typeof value === 'object' &&
    value !== null &&
    Object.entries(shapes).every(([name, shape]) => shape((value as Record<string, unknown>)[name]));

/** The same of one kind, for fields that are alike. */
export const each = (names: string, shape: Shape): Readonly<Record<string, Shape>> =>
  Object.fromEntries(names.split(' ').map((name) => [name, shape]));

/** So many numbers of a row. */
export const floats =
  (length?: number): Shape =>
  (value) =>
    value instanceof Float64Array && (length === undefined || value.length === length);

/** What a check lets pass that throws for everything else. */
export const passing =
  (check: (value: never) => unknown): Shape =>
  (value) => {
    try {
      check(value as never);
      return true;
    } catch {
      return false;
    }
  };
